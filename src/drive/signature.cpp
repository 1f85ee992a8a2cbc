#include <callfit/drive/signature.hpp>
#include <drive/states.hpp>
#include <drive/tally.hpp>

#include <cmath>

namespace callfit {
namespace {

class Digest {
 public:
  void add(std::uint64_t word) {
    for (int byte = 0; byte < 8; ++byte) {
      value_ ^= (word >> (8 * byte)) & 0xff;
      value_ *= 1099511628211U;
    }
  }
  void add_rounded(double value) { add(static_cast<std::uint64_t>(std::llround(value * 1e9))); }
  std::uint64_t value() const { return value_; }

 private:
  std::uint64_t value_ = 14695981039346656037U;
};

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
    digest.add_rounded(values.points);
    digest.add_rounded(values.net_points);
    for (const double share : values.share) digest.add_rounded(share);
    digest.add_rounded(values.first_downs);
    digest.add_rounded(values.plays);
  }
  return digest.value();
}

}  // namespace

DriveSignature signature_of(const DriveModel& model, const std::vector<double>& start_share,
                            const SampleOptions& options) {
  return {digest_of(drive::tally_over(model, start_share, options)), digest_of(solve(model))};
}

}  // namespace callfit
