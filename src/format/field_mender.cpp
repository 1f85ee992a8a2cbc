#include <callfit/chart/columns.hpp>
#include <format/field_mender.hpp>

#include <algorithm>
#include <array>
#include <charconv>

namespace callfit {
namespace {

using Columns = std::vector<std::string>;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// Of digits alone; nothing above 9999, which no field of a chart reaches.
std::optional<int> number_of(std::string_view digits) {
  int value = 0;
  if (!all_digits(digits) || digits.size() > 4) return std::nullopt;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

/// "7,0" and "7.0" as 7, a dash before a number as its minus sign.
std::optional<std::string> whole_number(std::string_view field) {
  std::string sign;
  for (const std::string_view minus : {"-", "\u2212", "\u2013"}) {
    if (!field.starts_with(minus)) continue;
    sign = "-";
    field.remove_prefix(minus.size());
    break;
  }
  if (sign.empty() && field.starts_with('+')) field.remove_prefix(1);
  const std::size_t point = field.find_first_of(",.");
  const std::string_view whole = field.substr(0, point);
  if (!all_digits(whole)) return std::nullopt;
  if (point != std::string_view::npos &&
      field.find_first_not_of('0', point + 1) != std::string_view::npos)
    return std::nullopt;
  const bool is_zero = whole.find_first_not_of('0') == std::string_view::npos;
  return (is_zero ? "" : sign) + std::string(whole);
}

/// "own 25" and "-25" as 75, "opp 8" as 8.
std::optional<std::string> yards_to_goal_by_side(std::string_view field, const Meanings& meanings) {
  const auto first = std::find_if(field.begin(), field.end(), is_digit);
  const auto last = std::find_if_not(first, field.end(), is_digit);
  const auto line = number_of(std::string_view(first, last));
  if (!line || *line < 1 || *line > 50) return std::nullopt;
  const std::string_view before = trimmed(std::string_view(field.begin(), first));
  const std::string_view behind = trimmed(std::string_view(last, field.end()));
  if (before.empty() == behind.empty()) return std::nullopt;
  std::string_view side = before.empty() ? behind : before;
  while (side.size() > 1 && (side.ends_with('-') || side.ends_with('.'))) side.remove_suffix(1);
  const auto meaning =
      before == "-" ? std::optional<std::string>("own") : meanings.of(place::side, side);
  if (!meaning) return std::nullopt;
  return std::to_string(*meaning == "own" ? 100 - *line : *line);
}

/// One to three of hours, minutes and seconds; seconds are the last.
struct Time {
  std::vector<int> parts;
  std::string fraction;  // of a second: digits without closing zeros
};

std::optional<Time> time_of(std::string_view field) {
  Time time;
  if (const std::size_t point = field.find_first_of(",."); point != std::string_view::npos) {
    time.fraction = field.substr(point + 1);
    if (!all_digits(time.fraction)) return std::nullopt;
    time.fraction.erase(time.fraction.find_last_not_of('0') + 1);
    field = field.substr(0, point);
  }
  while (true) {
    const std::size_t colon = field.find(':');
    const auto part = number_of(field.substr(0, colon));
    if (!part || time.parts.size() == 3) return std::nullopt;
    time.parts.push_back(*part);
    if (colon == std::string_view::npos) return time;
    field.remove_prefix(colon + 1);
  }
}

std::string two_digits(int value) { return (value < 10 ? "0" : "") + std::to_string(value); }

class RowMender {
 public:
  RowMender(const Columns& columns, const std::vector<std::string>& fields,
            const Meanings& meanings, const Clock& clock)
      : columns_(columns), fields_(fields), meanings_(meanings), clock_(clock) {}

  std::vector<std::optional<Mended>> mended() {
    std::vector<std::optional<Mended>> out(fields_.size());
    const std::size_t spot = place_of("yards_to_goal");
    if (spot < fields_.size()) {
      out[spot] = field(spot);
      yards_to_goal_ = out[spot] ? out[spot]->value : fields_[spot];
    }
    for (std::size_t i = 0; i < fields_.size(); ++i)
      if (i != spot && !columns_[i].empty()) out[i] = field(i);
    fill_gain(out);
    return out;
  }

 private:
  std::size_t place_of(std::string_view column) const {
    const auto found = std::find(columns_.begin(), columns_.end(), column);
    return static_cast<std::size_t>(found - columns_.begin());
  }

  std::string_view value(std::string_view column) const {
    const std::size_t place = place_of(column);
    return place < fields_.size() ? std::string_view(fields_[place]) : std::string_view();
  }

  std::optional<Mended> field(std::size_t place) const {
    const std::string& column = columns_[place];
    const std::string& from = fields_[place];
    if (from.empty()) return std::nullopt;
    if (const auto meaning = meanings_.in_column(column, from)) {
      const auto to = resolved(*meaning);
      if (!to) return std::nullopt;
      return Mended{*to, to->empty() ? MendCause::nothing : MendCause::word};
    }
    const ColumnKind kind = kind_of(column);
    if (kind == ColumnKind::clock) {
      const auto time = clock_.mended(from);
      return time ? std::optional(Mended{*time, MendCause::clock}) : std::nullopt;
    }
    if (column == "yards_to_goal")
      if (const auto spot = yards_to_goal_by_side(plain_number(from), meanings_))
        return Mended{*spot, MendCause::side};
    if (meanings_.can_read(column, from)) return std::nullopt;
    if (kind != ColumnKind::number && kind != ColumnKind::yes_no) return std::nullopt;
    const auto number = whole_number(from);
    if (!number || !meanings_.can_read(column, *number)) return std::nullopt;
    return Mended{*number, MendCause::number};
  }

  static std::string plain_number(const std::string& from) {
    return whole_number(from).value_or(from);
  }

  /// What a meaning in braces comes to here; nothing where the row does not tell.
  std::optional<std::string> resolved(const std::string& meaning) const {
    if (meaning == how_he_scored) return how_he_scored_here();
    if (meaning != own_yards_to_goal) return meaning;
    if (!number_of(yards_to_goal_)) return std::nullopt;
    return yards_to_goal_;
  }

  /// A touchdown of a pass family is a catch only where something tells that he threw: he may as
  /// well have run.
  std::optional<std::string> how_he_scored_here() const {
    const std::string_view gain = value("yards");
    const bool all_the_way = gain.empty() || plain_number(std::string(gain)) == yards_to_goal_ ||
                             meanings_.in_column("yards", gain) == own_yards_to_goal;
    if (!number_of(yards_to_goal_) || !all_the_way) return std::nullopt;
    const auto kind = meanings_.family(plain_word(value("family")));
    if (kind && *kind != FamilyKind::pass) return std::string(word(Result::run));
    for (const std::string_view of_throws : {"air_yards", "yac", "on_time", "catchable"}) {
      const std::string_view charted = value(of_throws);
      if (!charted.empty() && meanings_.in_column(of_throws, charted) != "")
        return std::string(word(Result::complete));
    }
    return std::nullopt;
  }

  /// A touchdown tells the gain.
  void fill_gain(std::vector<std::optional<Mended>>& out) const {
    const std::size_t gain = place_of("yards");
    if (gain == fields_.size() || !fields_[gain].empty()) return;
    const std::size_t result = place_of("result");
    if (result < fields_.size() && out[result] &&
        meanings_.in_column("result", fields_[result]) == how_he_scored)
      out[gain] = Mended{yards_to_goal_, MendCause::word};
  }

  const Columns& columns_;
  const std::vector<std::string>& fields_;
  const Meanings& meanings_;
  const Clock& clock_;
  std::string yards_to_goal_;
};

template <class Enum>
bool is_word_of(std::string_view field) {
  return from_word<Enum>(plain_word(field)).has_value();
}

}  // namespace

std::string with_plain_spaces(std::string_view text) {
  constexpr std::array<std::string_view, 3> spaces{"\u00A0", "\u202F", "\u2007"};
  constexpr std::array<std::string_view, 2> without_width{"\u200B", "\uFEFF"};
  std::string out;
  const auto cut = [&](std::string_view character) {
    if (!text.starts_with(character)) return false;
    text.remove_prefix(character.size());
    return true;
  };
  while (!text.empty()) {
    if (std::any_of(spaces.begin(), spaces.end(), cut)) {
      out += ' ';
    } else if (!std::any_of(without_width.begin(), without_width.end(), cut)) {
      out += text.front();
      text.remove_prefix(1);
    }
  }
  return out;
}

bool is_whole_number(std::string_view field) {
  const bool sign = field.starts_with('-') || field.starts_with('+');
  return all_digits(field.substr(sign ? 1 : 0));
}

Meanings::Meanings(const ChartWords& words)
    : words_(words),
      accepted_(parse_dictionary(accepted_words_text(), "accepted words")),
      mended_(parse_dictionary(mended_words_text(), "mended words")) {}

std::optional<std::string> Meanings::of(std::string_view where, std::string_view from) const {
  for (const Dictionary* dictionary : {&words_.own, &mended_})
    if (const auto found = dictionary->meaning(where, from)) return std::string(*found);
  return std::nullopt;
}

std::optional<std::string> Meanings::in_column(std::string_view column,
                                               std::string_view from) const {
  const ColumnKind kind = kind_of(column);
  std::vector<std::string_view> places{column};
  if (kind == ColumnKind::yes_no) places.push_back(place::yes_no);
  if (kind != ColumnKind::text) places.push_back(place::any);
  for (const std::string_view where : places)
    if (const auto own = words_.own.meaning(where, from)) return std::string(*own);
  if (can_read(column, from)) return std::nullopt;
  for (const std::string_view where : places)
    if (const auto shipped = mended_.meaning(where, from)) return std::string(*shipped);
  return std::nullopt;
}

bool Meanings::can_read(std::string_view column, std::string_view field) const {
  const std::string plain = plain_word(field);
  switch (kind_of(column)) {
    case ColumnKind::number:
      return is_whole_number(field);
    case ColumnKind::yes_no:
      return plain == "yes" || plain == "no" || accepted_.meaning(place::yes_no, field);
    case ColumnKind::word:
      break;
    case ColumnKind::clock:
      return time_of(field).has_value();
    default:
      return true;
  }
  if (column == "result") return is_word_of<Result>(field);
  if (column == "shell") return is_word_of<Shell>(field);
  if (column == "platform") return is_word_of<Platform>(field);
  if (column == "lane") return is_word_of<Lane>(field);
  if (column == "level")
    return std::find(words_.levels.begin(), words_.levels.end(), plain) != words_.levels.end();
  return family(plain).has_value();
}

std::optional<FamilyKind> Meanings::family(std::string_view id) const {
  const auto found = std::find_if(words_.families.begin(), words_.families.end(),
                                  [&](const Family& family) { return family.id == id; });
  return found == words_.families.end() ? std::nullopt : std::optional(found->kind);
}

void Clock::see(std::string_view field) {
  const auto time = time_of(field);
  if (!time || time->parts.size() < 3) return;
  ++of_three_parts_;
  if (time->parts[2] != 0 || !time->fraction.empty()) ends_in_seconds_ = true;
}

std::optional<std::string> Clock::mended(std::string_view field) const {
  const auto time = time_of(field);
  if (!time) return std::nullopt;
  if (time->parts.size() == 3 && of_three_parts_ > 1 && !ends_in_seconds_)
    return std::to_string(time->parts[0]) + ":" + two_digits(time->parts[1]);
  const std::size_t comma = field.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  return std::string(field.substr(0, comma)) + "." + std::string(field.substr(comma + 1));
}

std::vector<std::optional<Mended>> mended_row(const Columns& columns,
                                              const std::vector<std::string>& fields,
                                              const Meanings& meanings, const Clock& clock) {
  return RowMender(columns, fields, meanings, clock).mended();
}

}  // namespace callfit
