#include <callfit/draw/svg.hpp>

#include <fmt/format.h>
#include <glib.h>
#include <string.h>

#include <cmath>
#include <stdexcept>

namespace callfit {
namespace {

// U+FFFE or U+FFFF, which XML 1.0 forbids.
bool is_noncharacter(const char* text) {
  const std::string_view three(text, ::strnlen(text, 3));
  return three == "\xEF\xBF\xBE" || three == "\xEF\xBF\xBF";
}

// Well-formed UTF-8 without the characters that XML 1.0 forbids, markup escaped.
std::string escaped(const std::string& text) {
  gchar* valid = g_utf8_make_valid(text.c_str(), static_cast<gssize>(text.size()));
  std::string out;
  for (const char* c = valid; *c != '\0'; ++c) {
    if (is_noncharacter(c)) {
      out += ' ';
      c += 2;
      continue;
    }
    switch (*c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(*c) < 0x20 ? ' ' : *c;
    }
  }
  g_free(valid);
  return out;
}

class Writer {
 public:
  std::string document(const Figure& figure) {
    out_ += fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" "
        "viewBox=\"0 0 {0} {1}\" role=\"img\" aria-labelledby=\"title desc\">\n",
        figure.width, figure.height);
    out_ += fmt::format("<title id=\"title\">{}</title>\n<desc id=\"desc\">{}</desc>\n",
                        escaped(figure.title), escaped(figure.description));
    (*this)(RectShape{{0, 0, static_cast<double>(figure.width), static_cast<double>(figure.height)},
                      0,
                      {figure.ground, std::nullopt, Role::decor}});
    for (const Node& node : figure.content.nodes) std::visit(*this, node.shape);
    return std::move(out_) + "</svg>\n";
  }

  void operator()(const RectShape& rect) {
    out_ += fmt::format("<rect {}", box(rect.box));
    if (rect.radius > 0) out_ += fmt::format(" rx=\"{}\"", svg_number(rect.radius));
    close(rect.paint);
  }

  void operator()(const LineShape& line) {
    out_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"", svg_number(line.from.x),
                        svg_number(line.from.y), svg_number(line.to.x), svg_number(line.to.y));
    close(line.paint);
  }

  void operator()(const CircleShape& circle) {
    out_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", svg_number(circle.centre.x),
                        svg_number(circle.centre.y), svg_number(circle.radius));
    close(circle.paint);
  }

  void operator()(const PathShape& path) {
    out_ += "<path d=\"";
    for (const PathStep& step : path.steps) {
      out_ += step.command;
      for (std::size_t i = 0; i < step.numbers.size(); ++i)
        out_ += (i == 0 ? "" : " ") + svg_number(step.numbers[i]);
    }
    out_ += '"';
    close(path.paint);
  }

  void operator()(const TextShape& text) {
    out_ += fmt::format("<text x=\"{}\" y=\"{}\" font-family=\"{}\" font-size=\"{}\"",
                        svg_number(text.at.x), svg_number(text.at.y), escaped(text.font.family),
                        svg_number(text.font.size));
    if (text.font.bold) out_ += " font-weight=\"700\"";
    if (text.font.italic) out_ += " font-style=\"italic\"";
    if (text.anchor == Anchor::middle) out_ += " text-anchor=\"middle\"";
    if (text.anchor == Anchor::end) out_ += " text-anchor=\"end\"";
    out_ += fmt::format(" fill=\"{}\">{}</text>\n", to_hex(text.colour), escaped(text.text));
  }

  void operator()(const ImageShape& image) {
    out_ += fmt::format("<image {} href=\"data:{};base64,{}\"/>\n", box(image.box),
                        escaped(image.media_type), base64(image.bytes));
  }

  void operator()(const Group& group) {
    if (group.clip) {
      out_ += fmt::format(
          "<clipPath id=\"clip{0}\"><rect {1}/></clipPath>\n"
          "<g clip-path=\"url(#clip{0})\"{2}>\n",
          clips_, box(*group.clip), name_of(group));
      ++clips_;
    } else {
      out_ += fmt::format("<g{}>\n", name_of(group));
    }
    if (!group.title.empty()) out_ += fmt::format("<title>{}</title>\n", escaped(group.title));
    for (const Node& node : group.nodes) std::visit(*this, node.shape);
    out_ += "</g>\n";
  }

 private:
  static std::string box(const Box& b) {
    return fmt::format("x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"", svg_number(b.x),
                       svg_number(b.y), svg_number(b.width), svg_number(b.height));
  }

  void close(const Paint& paint) {
    if (paint.role == Role::mark) out_ += " class=\"mark\"";
    out_ += fmt::format(" fill=\"{}\"", paint.fill ? to_hex(*paint.fill) : "none");
    if (paint.stroke) {
      out_ += fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", to_hex(paint.stroke->colour),
                          svg_number(paint.stroke->width));
      if (!paint.stroke->dash.empty()) out_ += dashes(paint.stroke->dash);
    }
    out_ += "/>\n";
  }

  static std::string name_of(const Group& group) {
    if (group.id.empty()) return "";
    const std::string unit =
        group.unit == 0 ? "" : fmt::format(" data-unit=\"{}\"", svg_number(group.unit));
    return fmt::format(" id=\"{}\"{}", escaped(group.id), unit);
  }

  static std::string dashes(const std::vector<double>& pattern) {
    std::string list;
    for (const double length : pattern) list += (list.empty() ? "" : " ") + svg_number(length);
    return fmt::format(" stroke-dasharray=\"{}\"", list);
  }

  std::string out_;
  int clips_ = 0;
};

}  // namespace

std::string to_svg(const Figure& figure) { return Writer{}.document(figure); }

std::string svg_number(double value) {
  if (!std::isfinite(value)) throw std::invalid_argument("a drawing needs finite numbers");
  std::string text = fmt::format("{:.2f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string base64(const std::string& bytes) {
  gchar* text = g_base64_encode(reinterpret_cast<const guchar*>(bytes.data()), bytes.size());
  std::string out = text;
  g_free(text);
  return out;
}

}  // namespace callfit
