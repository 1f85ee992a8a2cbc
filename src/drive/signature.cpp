#include <callfit/base/digest.hpp>
#include <callfit/drive/signature.hpp>
#include <drive/states.hpp>
#include <drive/tally.hpp>

#include <cmath>

namespace callfit {
namespace {

void add_rounded(Digest& digest, double value) {
  digest.add(static_cast<std::uint64_t>(std::llround(value * 1e9)));
}

std::uint64_t digest_of(const drive::Tally& tally) {
  Digest digest;
  for (const auto& slots : tally.ends)
    for (const std::uint64_t count : slots) digest.add(count);
  for (const std::uint64_t sum : {tally.drives, tally.first_downs, tally.first_downs_squared,
                                  tally.plays, tally.plays_squared})
    digest.add(sum);
  return digest.value();
}

std::uint64_t digest_of(const ExactDrives& drives) {
  Digest digest;
  for (int y = 1; y <= drive::last_spot; ++y) {
    const DriveValues values = drives.at(first_down_at(y));
    add_rounded(digest, values.points);
    add_rounded(digest, values.net_points);
    for (const double share : values.share) add_rounded(digest, share);
    add_rounded(digest, values.first_downs);
    add_rounded(digest, values.plays);
  }
  return digest.value();
}

}  // namespace

DriveSignature signature_of(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options) {
  return {digest_of(drive::tally_over(model, start_share, options)), digest_of(solve(model))};
}

}  // namespace callfit
