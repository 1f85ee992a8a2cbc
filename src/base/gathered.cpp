#include <callfit/base/gathered.hpp>

#include <map>
#include <tuple>

namespace callfit {

Findings gathered(const Findings& findings) {
  struct More {
    std::size_t at, lines, last;
  };
  Findings out;
  std::map<std::tuple<std::string, std::string, std::string, std::string, Severity>, More> seen;
  for (const Finding& finding : findings) {
    const auto& [file, line, field] = finding.place;
    const auto [found, is_new] = seen.try_emplace(
        {file, field, finding.what, finding.mend, finding.severity}, More{out.size(), 0, line});
    More& more = found->second;
    if (is_new || line == more.last) {
      out.push_back(finding);
    } else {
      ++more.lines;
      more.last = line;
    }
  }
  for (const auto& [key, more] : seen)
    if (more.lines > 0)
      out[more.at].what += " (here and in " + std::to_string(more.lines) + " more line" +
                           (more.lines == 1 ? "" : "s") + ", to " + std::to_string(more.last) + ")";
  return out;
}

}  // namespace callfit
