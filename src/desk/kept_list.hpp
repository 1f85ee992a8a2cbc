// What was said before: the kept answers that lie in the case's folder.
#pragma once

#include <callfit/ask/answer.hpp>

#include <string>
#include <vector>

namespace callfit::desk {

struct KeptFile {
  std::string name;  ///< of the file
  KeptAnswer said;
};

/// Every callfit-kept/1 file of the folder itself, the newest date first; other files, links and
/// files too large to be one are passed over.
std::vector<KeptFile> kept_in(const std::string& folder);

}  // namespace callfit::desk
