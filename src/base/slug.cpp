#include <callfit/base/slug.hpp>

#include <cctype>

namespace callfit {

std::string slug(const std::string& name) {
  constexpr std::size_t longest = 60;
  std::string out;
  for (const char c : name.substr(0, longest)) {
    const auto letter = static_cast<unsigned char>(c);
    if (std::isalnum(letter) != 0)
      out += static_cast<char>(std::tolower(letter));
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "unnamed" : out;
}

}  // namespace callfit
