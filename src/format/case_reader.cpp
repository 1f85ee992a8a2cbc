#include <callfit/ask/matchup.hpp>
#include <callfit/ask/namesakes.hpp>
#include <callfit/base/nearest.hpp>
#include <callfit/format/case.hpp>
#include <callfit/format/net_values.hpp>
#include <callfit/format/opponents.hpp>
#include <callfit/format/profile.hpp>
#include <callfit/format/record.hpp>
#include <callfit/format/scenario.hpp>
#include <callfit/format/scheme.hpp>
#include <callfit/format/season_totals.hpp>
#include <callfit/format/setting.hpp>
#include <callfit/profile/edited_cell.hpp>
#include <callfit/scheme/call_chart.hpp>
#include <format/around_reader.hpp>
#include <format/changes.hpp>
#include <format/documents.hpp>
#include <format/families.hpp>
#include <format/page_part.hpp>
#include <format/part.hpp>
#include <profile/box.hpp>
#include <profile/joint.hpp>

#include <algorithm>

namespace callfit {
namespace {

constexpr std::string_view scheme_want =
    R"(a shipped name, a file, a scheme, or {"scheme": ..., "calls": [...], "name": "..."})";
constexpr std::string_view quarterback_want =
    R"({"name": "...", "charts": [...]} or {"profile": ...})";
constexpr std::string_view try_want = R"({"name": "...", "changes": [...]})";
constexpr Sizes schemes_rule{1, 100, "a list of 1 to 100 schemes"};
constexpr Sizes quarterbacks_rule{1, 1000, "a list of 1 to 1000 quarterbacks"};
constexpr Sizes charts_rule{1, 1000, "a list of charts"};
constexpr Sizes tries_rule{0, 1000, "a list of tries"};
constexpr Texts name_rule{1, 200, "a short name"};
constexpr Texts words_rule{0, 1000, "a few words"};
constexpr Numbers seed_rule{0, 9007199254740991.0, "a whole number from 0 to 2^53"};
constexpr Numbers draws_rule{static_cast<double>(fewest_draws), static_cast<double>(most_draws)};
constexpr Numbers assumed_rule{least_assumed, most_assumed,
                               "what assumed spreads are multiplied by, from 0.1 to 10"};
constexpr Numbers smoothing_rule{0, 1e6, "a number of snaps from 0 to 1000000"};

class CaseReader {
 public:
  CaseReader(const std::string& source, const CaseTexts& texts, const Beside& beside,
             Findings& notices)
      : source_(source), texts_(texts), beside_(beside), notices_(notices) {}

  Case read(Fields& fields) {
    about_.name = fields.text_or("name", words_rule, "");
    fields.maybe("options", [this](const Part& part) {
      return part.object("", [this](Fields& own) { return options(own); });
    });
    fields.needed("setting", "a shipped name, a file, or a setting", [this](const Part& part) {
      about_.setting = setting(part);
      sound_ = part.sound() && !failed_;
      return 0;
    });
    scale_assumed(fields);
    read_average(fields);
    about_.schemes =
        fields.list("schemes", schemes_rule, [this](const Part& part) { return scheme(part); });
    sound_ = sound_ && !failed_ && fields.sound("schemes");
    for (const Scheme& scheme : about_.schemes)
      for (FamilyAlias& alias : aliases_of(scheme)) like_.push_back(std::move(alias));
    around_.opponents = opponents_from(fields, "opponents");
    around_.coming = opponents_from(fields, "coming_opponents");
    if (const auto kept = texts_(CasePart::record, "professional", source_))
      about_.record = parse_record(kept->text, kept->source);
    about_.quarterbacks = fields.list("quarterbacks", quarterbacks_rule, [this](const Part& part) {
      return part.object(quarterback_want, [this](Fields& own) { return quarterback(own); });
    });
    about_.tries = fields
                       .maybe("tries",
                              [](const Part& part) {
                                return part.list(tries_rule, [](const Part& item) {
                                  return item.object(try_want, try_from);
                                });
                              })
                       .value_or(std::vector<Try>{});
    fields.maybe("page", page_part);  // of pages alone: parse_page_handles()
    about_.tape_source = fields.text_or("tape_source", words_rule, "");
    fields.maybe("style", [this](const Part& part) {
      about_.style = text_of(part, CasePart::style).text;
      return 0;
    });
    return std::move(about_);
  }

 private:
  // A text named or held; where it cannot be had, the fault is told and the text is empty.
  SourceText text_of(const Part& part, CasePart kind) {
    if (!part.value().is_string()) return {part.value().dump(), source_};
    const std::string name = part.text(name_rule);
    try {
      if (auto found = texts_(kind, name, source_)) return *found;
      part.fault("names " + name + ", which is not there", "give a shipped name or a file");
    } catch (const InputError& error) {
      for (const Finding& finding : error.findings())
        part.fault("names " + name + ": " + finding.what, finding.mend);
    }
    return {};
  }

  // What `parse` makes of a text.
  template <class Parse>
  auto parsed(const Part& part, CasePart kind, const Parse& parse)
      -> decltype(parse(SourceText{})) {
    const SourceText found = text_of(part, kind);
    if (found.text.empty()) return {};
    return told(part, [&] { return parse(found); });
  }

  // What `read` makes of a document, held or named.
  template <class Read>
  auto document(const Part& part, CasePart kind, const Read& read)
      -> decltype(read(part.value(), std::string())) {
    if (!part.value().is_string()) return told(part, [&] { return read(part.value(), source_); });
    return parsed(part, kind, [&read](const SourceText& found) {
      return read(parse_json(found.text, found.source), found.source);
    });
  }

  // Faults inside the case get their path in it.
  template <class Read>
  auto told(const Part& part, const Read& read) -> decltype(read()) {
    try {
      return read();
    } catch (const InputError& error) {
      for (const Finding& finding : error.findings()) {
        if (!part.value().is_string())
          part.faults().add(part.pointer() + finding.place.field, finding.what, finding.mend);
        else
          part.faults().add(Findings{finding});
      }
      failed_ = true;
    }
    return {};
  }

  Setting setting(const Part& part) {
    return document(part, CasePart::setting,
                    [this](const nlohmann::json& held, const std::string& source) {
                      return setting_of(held, source, beside_);
                    });
  }

  void scale_assumed(Fields& fields) {
    const double scale = about_.options.assumed;
    as_given_ = about_.setting;
    if (scale == 1 || !sound_) return;
    if (!about_.setting.population) {
      fields.part().faults().add(fields.part().pointer() + "/options/assumed",
                                 "the setting has no population whose spreads could be assumed",
                                 "leave it out");
      return;
    }
    about_.setting.population->assumed_scale *= scale;
    settle_spreads(about_.setting);
  }

  Scheme plain_scheme(const Part& part) {
    return document(part, CasePart::scheme,
                    [this](const nlohmann::json& held, const std::string& source) {
                      return scheme_of(held, source, beside_);
                    });
  }

  // The setting's own average scheme unless the case holds one.
  void read_average(Fields& fields) {
    const auto given =
        fields.maybe("average_scheme", [this](const Part& part) { return plain_scheme(part); });
    if (given) {
      about_.average_scheme = *given;
    } else if (sound_) {
      const std::string file = about_.setting.average_scheme;
      const nlohmann::json name = file.substr(0, file.rfind(".json"));
      about_.average_scheme = plain_scheme(
          Part(name, child(fields.part().pointer(), "setting"), fields.part().faults()));
    }
    if (!sound_ || !fields.sound()) return;
    if (const auto kept = texts_(CasePart::net_values, about_.setting.id, source_))
      about_.net = parse_net_values(kept->text, kept->source,
                                    net_values_key(about_.setting, about_.average_scheme));
  }

  std::vector<OpponentRecord> opponents_from(Fields& fields, std::string_view key) {
    const auto records = fields.maybe(key, [this](const Part& part) {
      if (sound_ && !about_.setting.population)
        part.fault("the setting has no population that says what opponents differ by",
                   "leave it out");
      auto read = parsed_csv(part, CasePart::opponents, [](const SourceText& found) {
        return parse_opponents(found.text, found.source);
      });
      for (const OpponentRecord& record : read)
        if (sound_ && !record.level.empty() && about_.setting.find_level(record.level) == nullptr)
          part.fault("names " + record.name + " of level " + record.level +
                         ", which the setting does not know",
                     suggest(record.level, level_ids()));
      return read;
    });
    return records && fields.sound(key) ? *records : std::vector<OpponentRecord>{};
  }

  std::vector<std::string> level_ids() const {
    std::vector<std::string> ids;
    for (const Level& level : about_.setting.levels) ids.push_back(level.id);
    return ids;
  }

  // How often the setting's average offence calls each family; worked out where it is needed.
  const std::vector<double>& usual_calls() {
    if (!around_.calls.empty()) return around_.calls;
    const BoundScheme bound =
        make_matchup(about_.setting, about_.average_scheme, about_.average_scheme).bound;
    around_.calls.assign(about_.setting.families.size(), 0.0);
    for (std::size_t f = 0; f < bound.setting_family.size(); ++f)
      around_.calls[bound.setting_family[f]] += bound.call_share[f];
    return around_.calls;
  }

  Scheme scheme(const Part& part) {
    if (!part.value().is_object() || !part.value().contains("scheme")) return plain_scheme(part);
    return part.object(scheme_want, [this](Fields& fields) { return called_scheme(fields); });
  }

  Scheme called_scheme(Fields& fields) {
    Scheme base = fields.needed("scheme", scheme_want,
                                [this](const Part& part) { return plain_scheme(part); });
    const double smoothing = fields.number_or("smoothing", smoothing_rule, usual_smoothing);
    const auto calls =
        fields.maybe("calls", [&](const Part& part) { return charts(part, aliases_of(base)); });
    if (calls && sound_ && !failed_ && fields.sound()) {
      base = scheme_from_calls(base, *calls, smoothing);
      base.id = "coordinator";
    }
    base.name = fields.text_or("name", scheme_name_rule, base.name);
    base.id = fields.text_or("id", name_id_rule, base.id);
    return base;
  }

  // CSV by the name of its file, or held: {"name": "...", "csv": "..."}.
  template <class Read>
  auto parsed_csv(const Part& part, CasePart kind, const Read& read)
      -> decltype(read(SourceText{})) {
    if (!part.value().is_object()) return parsed(part, kind, read);
    return part.object(R"({"name": "...", "csv": "..."})", [&](Fields& own) {
      const std::string name = own.text("name", name_rule);
      return read(SourceText{own.text("csv", some_text), name});
    });
  }

  std::vector<Chart> charts(const Part& part, const std::vector<FamilyAlias>& like) {
    return part.list(charts_rule, [&](const Part& item) {
      const ChartWords words = words_of(about_.setting, like);
      const auto read = [&](const SourceText& found) {
        return parse_chart(found.text, found.source, notices_, words);
      };
      return parsed_csv(item, CasePart::chart, read);
    });
  }

  Quarterback quarterback(Fields& fields) {
    const std::string name = fields.text_or("name", person_rule, "");
    if (fields.has("charts") == fields.has("profile")) {
      fields.part().fault("has both charts and a profile, or neither", "give one of them");
      return {};
    }
    Quarterback out =
        fields.has("profile") ? from_profile(fields, name) : from_charts(fields, name);
    fields.maybe("scheme", [&](const Part& part) {
      out.scheme = scheme_place(part);
      return 0;
    });
    return out;
  }

  std::size_t scheme_place(const Part& part) const {
    const std::string name = part.text(name_rule);
    std::vector<std::string> known;
    for (const Scheme& scheme : about_.schemes) known.push_back(scheme.name);
    const auto found = std::find(known.begin(), known.end(), name);
    if (found != known.end()) return static_cast<std::size_t>(found - known.begin());
    if (part.sound() && sound_)
      part.fault("the case has no scheme called " + name, suggest(name, known));
    return 0;
  }

  Quarterback from_profile(Fields& fields, const std::string& name) {
    Quarterback out;
    fields.needed("profile", "", [&](const Part& part) {
      if (!sound_) return 0;
      out.profile = document(part, CasePart::profile,
                             [this](const nlohmann::json& held, const std::string& source) {
                               return as_asked(profile_of(held, source, as_given_));
                             });
      return 0;
    });
    if (!name.empty()) out.profile.name = name;
    return out;
  }

  // A profile is held against the setting that it was made with, then read under the scaled one
  // and against the opponents to come.
  Profile as_asked(Profile profile) {
    if (!profile.joint || (about_.options.assumed == 1 && around_.coming.empty())) return profile;
    const Setting& setting = about_.setting;
    if (!around_.coming.empty())
      profile.evidence.coming = coming_of(around_.coming, setting, usual_calls());
    Profile out =
        with_joint(profile, setting,
                   posterior_of(with_assumed_spreads(*setting.population), profile.evidence));
    for (FamilyProfile& family : out.families) estimate_cells(family, shell_mix(setting));
    return out;
  }

  Quarterback from_charts(Fields& fields, const std::string& name) {
    if (name.empty()) fields.missing("name", "what to call him");
    auto tape = std::make_shared<Tape>();
    tape->like = like_;
    tape->charts =
        fields.needed("charts", "", [this](const Part& part) { return charts(part, like_); });
    Weighting weighting = weighting_of(about_.setting);
    fields.maybe("level_weights", [&weighting](const Part& part) {
      part.entries(Sizes{0, 100, "an object of levels and weights"},
                   [&weighting](const Part& item, const std::string& level) {
                     return set_weight(weighting, level, item);
                   });
      return 0;
    });
    Quarterback out;
    if (sound_ && !failed_) {
      weighting.around.opponents = around_.opponents;
      weighting.around.coming = around_.coming;
      weighting.around.moves = moves_from(fields, tape->charts, about_.setting);
      weighting.around.seasons =
          seasons_from(fields, tape->charts, about_.setting, [this](const Part& part) {
            return parsed_csv(part, CasePart::seasons, [](const SourceText& found) {
              return parse_season_totals(found.text, found.source);
            });
          });
    } else {
      for (const char* key : {"moves", "season_totals"})
        fields.maybe(key, [](const Part&) { return 0; });  // cannot be held against anything
    }
    if (!sound_ || failed_ || !fields.sound()) return out;
    const Around& around = weighting.around;
    if (!around.opponents.empty() || !around.coming.empty() || !around.seasons.empty())
      weighting.around.calls = usual_calls();
    try {
      out.profile = build_profile(name, tape->charts, about_.setting, weighting, like_);
      out.tape = std::move(tape);
    } catch (const InputError& error) {
      fields.part().faults().add(error.findings());
    }
    return out;
  }

  static int set_weight(Weighting& weighting, const std::string& level, const Part& part) {
    std::vector<std::string> known;
    for (Level& entry : weighting.levels) {
      known.push_back(entry.id);
      if (entry.id == level) {
        entry.weight = part.number(share_rule);
        return 0;
      }
    }
    part.fault("the setting has no level " + level, suggest(level, known));
    return 0;
  }

  int options(Fields& fields) {
    CaseOptions& out = about_.options;
    out.seed = static_cast<std::uint64_t>(
        fields.number_or("seed", seed_rule, static_cast<double>(out.seed)));
    out.draws = static_cast<std::size_t>(
        fields.number_or("draws", draws_rule, static_cast<double>(out.draws)));
    if (fields.has("policy")) out.policy = fields.word<FourthDownPolicy>("policy");
    out.end_of_half = fields.flag_or("end_of_half", false);
    out.assumed = fields.number_or("assumed", assumed_rule, out.assumed);
    return 0;
  }

  static Try try_from(Fields& fields) {
    Try one;
    one.name = fields.text("name", name_rule);
    one.changes = fields.needed("changes", changes_want, changes_from);
    return one;
  }

  const std::string& source_;
  const CaseTexts& texts_;
  const Beside& beside_;
  Findings& notices_;
  Case about_;
  Around around_;     // what all quarterbacks share of it
  Setting as_given_;  // before assumed spreads were multiplied
  std::vector<FamilyAlias> like_;
  bool sound_ = false;   // setting and schemes can be used
  bool failed_ = false;  // something that the case names has faults
};

}  // namespace

std::vector<FamilyAlias> aliases_of(const Scheme& scheme) {
  std::vector<FamilyAlias> aliases;
  for (const Family& family : scheme.families)
    if (!family.like.empty()) aliases.push_back({family.id, family.like});
  return aliases;
}

ChartWords words_of(const Setting& setting, const std::vector<FamilyAlias>& like) {
  ChartWords words;
  for (const FamilyPopulation& family : setting.families)
    words.families.push_back({family.id, family.label, family.kind, "", ""});
  for (const FamilyAlias& alias : like)
    if (const FamilyPopulation* family = setting.find_family(alias.like))
      words.families.push_back({alias.id, alias.id, family->kind, "", alias.like});
  for (const Level& level : setting.levels) words.levels.push_back(level.id);
  return words;
}

Case case_of(const nlohmann::json& document, const std::string& source, const CaseTexts& texts,
             const Beside& beside, Findings& notices) {
  const auto read = [&](Fields& fields) {
    return CaseReader(source, texts, beside, notices).read(fields);
  };
  Case about = read_document(document, "callfit-case", source, read);
  for (const std::string& name : shared_names(about))
    notices.push_back({{source, 0, "/quarterbacks"},
                       "several are called \"" + name + "\"; they are shown with their numbers",
                       "give each a name of his own",
                       Severity::warning});
  return about;
}

Case parse_case(std::string_view text, const std::string& source, const CaseTexts& texts,
                const Beside& beside, Findings& notices) {
  return case_of(parse_json(text, source), source, texts, beside, notices);
}

}  // namespace callfit
