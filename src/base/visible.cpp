#include <callfit/base/visible.hpp>

namespace callfit {
namespace {

void write_out(unsigned code, std::string& out) {
  constexpr std::string_view digits = "0123456789abcdef";
  out += "\\u00";
  out += digits[code >> 4U];
  out += digits[code & 0xFU];
}

}  // namespace

std::string visible(std::string_view text, std::string_view kept) {
  constexpr unsigned first_printed = 0x20, deleted = 0x7F, c1_lead = 0xC2, c1_end = 0xA0;
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const unsigned byte = static_cast<unsigned char>(text[i]);
    const unsigned next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0;
    if ((byte < first_printed || byte == deleted) && kept.find(text[i]) == std::string_view::npos)
      write_out(byte, out);
    else if (byte == c1_lead && next >= 0x80U && next < c1_end)
      write_out(static_cast<unsigned char>(text[++i]), out);
    else
      out += text[i];
  }
  return out;
}

std::string shortened(std::string_view text) {
  constexpr std::size_t most = 40;
  if (text.size() <= most) return std::string(text);
  std::size_t cut = most;
  while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xC0U) == 0x80U) --cut;
  return std::string(text.substr(0, cut)) + "...";
}

}  // namespace callfit
