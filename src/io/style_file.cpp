#include <callfit/io/read_file.hpp>
#include <callfit/io/style_file.hpp>
#include <io/json_part.hpp>
#include <io/schema.hpp>

#include <stdexcept>

namespace callfit {
namespace {

void read_colours(const Part& colours, Style& style) {
  each_entry(colours, [&](const Part& colour, const std::string& key) {
    const auto ink = from_word<Ink>(key);
    const auto value = parse_colour(colour.value.get<std::string>());
    if (ink && value) style[*ink] = *value;
  });
}

void read_wording(const Part& wording, Wording& words) {
  each_entry(wording, [&](const Part& phrase, const std::string& key) {
    try {
      words.set(key, phrase.value.get<std::string>());
    } catch (const std::invalid_argument& wrong) {
      phrase.fault(wrong.what(), "");
    }
  });
}

}  // namespace

void apply_style_file(const std::string& path, Dress& dress) {
  const nlohmann::json document = parse_json(read_file(path), path);
  validate(document, "callfit-style", path);
  Faults faults(path);
  const Part part{document, "", faults};
  Style style = dress.style;
  Wording words = dress.wording;
  if (part.has("theme")) style = house_style(from_word<Theme>(part.text("theme")).value());
  if (part.has("colours")) read_colours(part.at("colours"), style);
  if (part.has("fonts")) {
    style.headline_family = part.at("fonts").get("headline", style.headline_family);
    style.text_family = part.at("fonts").get("text", style.text_family);
  }
  if (part.has("wording")) read_wording(part.at("wording"), words);
  for (const Finding& low : check_contrast(style, path, "/colours"))
    faults.add(low.place.field, low.what, low.mend);
  faults.settle();
  dress.style = style;
  dress.wording = words;
}

}  // namespace callfit
