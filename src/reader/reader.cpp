#include <callfit/reader/reader.hpp>

#include <callfit/format/scenario.hpp>
#include <callfit/report/answer_text.hpp>
#include <callfit/report/door.hpp>
#include <callfit/report/turning_text.hpp>
#include <callfit/telling/telling.hpp>
#include <format/part.hpp>
#include <reader/numbers.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace callfit {
namespace {

using nlohmann::ordered_json;

constexpr auto shown_format = "callfit-shown/1";
constexpr auto request_source = "request";
constexpr std::string_view put_want = R"({"handle": 1, "at": 4})";
constexpr Sizes put_rule{0, most_handles, "a list of handles put somewhere"};
constexpr Texts try_rule{0, 2000, "what the address of a page ends in"};

Case at_pace(Case about, Pace pace) {
  if (pace == Pace::following) about.options.draws = fewest_draws;
  return about;
}

std::size_t nearest_place(const SweepRange& range, double value) {
  const double way = (value - range.from) / (range.to - range.from);
  const double last = static_cast<double>(range.count - 1);
  return static_cast<std::size_t>(std::clamp(std::round(way * last), 0.0, last));
}

std::string text_at(const KnobValue& knob, double value) {
  KnobValue there = knob;
  there.now = value;
  return knob_value_text(there);
}

// `put`: where somebody has put it, or nullptr.
Shown::Handle shown_handle(const PageHandle& handle, const KnobValue& start, const KnobValue& now,
                           const PutHandle* put) {
  const SweepRange& range = handle.range;
  return {handle.words,           knob_value_text(now),
          knob_value_text(start), text_at(now, range.from),
          text_at(now, range.to), put != nullptr ? put->at : nearest_place(range, now.now),
          range.count - 1,        put != nullptr};
}

PutHandle put_from(Fields& fields, const std::vector<PageHandle>& handles) {
  PutHandle put;
  const Numbers handle_rule{1, static_cast<double>(handles.size()), "a handle, from 1"};
  put.handle = static_cast<std::size_t>(std::max(fields.integer("handle", handle_rule), 1) - 1);
  const std::size_t count =
      put.handle < handles.size() ? handles[put.handle].range.count : most_steps;
  const Numbers place_rule{0, static_cast<double>(count - 1), "a place of the handle, from 0"};
  put.at = static_cast<std::size_t>(fields.integer("at", place_rule));
  return put;
}

std::vector<std::string> pieces_of(const std::string& text) {
  std::vector<std::string> pieces;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find('&', from), text.size());
    pieces.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  return pieces;
}

ordered_json handle_json(const Shown::Handle& handle) {
  return {{"words", handle.words}, {"text", handle.text},          {"began", handle.began},
          {"low", handle.low},     {"high", handle.high},          {"at", handle.at},
          {"last", handle.last},   {"is_turned", handle.is_turned}};
}

std::string shown_json(const Shown& shown) {
  ordered_json rows = ordered_json::array(), handles = ordered_json::array();
  for (const Shown::Row& row : shown.rows)
    rows.push_back({{"label", row.label},
                    {"value", row.value},
                    {"began", row.began},
                    {"strip", {row.strip.low, row.strip.centre, row.strip.high}}});
  for (const Shown::Handle& handle : shown.handles) handles.push_back(handle_json(handle));
  return ordered_json{
      {"format", shown_format}, {"kicker", shown.kicker},        {"headline", shown.headline},
      {"groups", shown.groups}, {"paragraph", shown.paragraph},  {"rows", std::move(rows)},
      {"effect", shown.effect}, {"handles", std::move(handles)}, {"try", shown.try_text}}
      .dump();
}

}  // namespace

Reader::Reader(PageCase held, unsigned threads, Pace pace)
    : held_(std::move(held)), pace_(pace), study_(at_pace(held_.about, pace), threads, pace) {
  for (const auto& [key, text] : held_.phrases) wording_.set(key, text);
  let_turn(held_.handles, "page");
}

void Reader::let_turn(std::vector<PageHandle> handles, const std::string& source) {
  require_handles(study_, held_.stand, handles, source);
  held_.handles = std::move(handles);
  start_.clear();
  for (const PageHandle& handle : held_.handles)
    start_.push_back(study_.path(held_.stand, handle.range.path).value());
}

std::vector<Change> Reader::changes_of(const std::vector<PutHandle>& put) const {
  std::vector<Change> changes;
  for (const PutHandle& one : put) {
    const SweepRange& range = held_.handles.at(one.handle).range;
    changes.push_back({range.path, Change::Way::set, range.at(one.at), ""});
  }
  return changes;
}

Shown Reader::shown(const std::vector<PutHandle>& put) {
  Stand stand = held_.stand;
  stand.changes = changes_of(put);
  study_.require(stand);
  if (!began_) began_ = fit_scene(study_, held_.stand);

  const FitScene scene = fit_scene(study_, stand);
  const Telling telling = fit_telling(scene.fit, scene.against, wording_);
  Shown shown;
  shown.kicker = telling.kicker;
  shown.headline = telling.headline;
  shown.groups = telling.deck;
  shown.paragraph = paragraph(
      std::get<SayAnswer>(study_.answer(SayRequest{stand, held_against(stand, study_.about())})));
  shown.rows = reader_rows(scene, *began_);
  const std::vector<Shown::Row> began = reader_rows(*began_, *began_);
  for (std::size_t i = 0; i < shown.rows.size(); ++i) shown.rows[i].began = began[i].value;
  if (!put.empty() && pace_ == Pace::settled) shown.effect = reader_effect(study_, stand);

  for (std::size_t h = 0; h < held_.handles.size(); ++h) {
    const PageHandle& handle = held_.handles[h];
    const auto own =
        std::find_if(put.begin(), put.end(), [h](const PutHandle& one) { return one.handle == h; });
    shown.handles.push_back(shown_handle(handle, start_[h],
                                         study_.path(stand, handle.range.path).value(),
                                         own == put.end() ? nullptr : &*own));
    if (own != put.end())
      shown.try_text += fmt::format("{}{}={:.6g}", shown.try_text.empty() ? "" : "&",
                                    handle.range.path, handle.range.at(own->at));
  }
  return shown;
}

std::vector<PutHandle> Reader::put_by(const std::string& try_text) const {
  Faults faults("address");
  std::vector<PutHandle> put;
  for (const std::string& piece : pieces_of(try_text)) {
    Change change;
    try {
      change = parse_change(piece);
    } catch (const InputError& error) {
      faults.add(error.findings());
      continue;
    }
    const auto handle =
        std::find_if(held_.handles.begin(), held_.handles.end(),
                     [&change](const PageHandle& one) { return one.range.path == change.path; });
    const auto place = static_cast<std::size_t>(handle - held_.handles.begin());
    if (handle == held_.handles.end()) {
      faults.add(change.path, "is nothing that this page lets turn", "take a handle of the page");
      continue;
    }
    constexpr double slack = 1e-6;  // of the digits that a try is written with
    if (change.way != Change::Way::set || change.amount < handle->range.from - slack ||
        change.amount > handle->range.to + slack)
      faults.add(change.path, "is not set to a value of its handle",
                 "from " + text_at(start_[place], handle->range.from) + " to " +
                     text_at(start_[place], handle->range.to));
    else if (std::any_of(put.begin(), put.end(),
                         [place](const PutHandle& one) { return one.handle == place; }))
      faults.add(change.path, "is set twice", "set it once");
    else
      put.push_back({place, nearest_place(handle->range, change.amount)});
  }
  faults.settle();
  return put;
}

std::string Reader::answer(std::string_view request) {
  try {
    const nlohmann::json document = parse_json(request, request_source);
    Faults faults(request_source);
    std::optional<std::string> try_text;
    auto put = Part(document, "", faults).object(R"({"put": [...]})", [&](Fields& fields) {
      try_text = fields.maybe("try", [](const Part& part) { return part.text(try_rule); });
      return fields
          .maybe("put",
                 [this](const Part& part) {
                   return part.list(put_rule, [this](const Part& item) {
                     return item.object(
                         put_want, [this](Fields& own) { return put_from(own, held_.handles); });
                   });
                 })
          .value_or(std::vector<PutHandle>{});
    });
    faults.settle();
    return shown_json(shown(try_text ? put_by(*try_text) : put));
  } catch (const InputError& error) {
    return error_document(error);
  }
}

}  // namespace callfit
