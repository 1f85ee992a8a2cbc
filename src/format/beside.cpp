#include <callfit/base/finding.hpp>
#include <callfit/format/beside.hpp>

namespace callfit {

SourceText nothing_beside(const std::string& name, const std::string& source) {
  throw InputError(
      Finding{{source, 0, ""}, "needs another document, " + name, "give one that stands alone"});
}

}  // namespace callfit
