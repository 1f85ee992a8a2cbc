#include <ask/answers.hpp>
#include <ask/snap_numbers.hpp>
#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>

#include <algorithm>

namespace callfit {

class Study::Inside {
 public:
  Inside(Case about, unsigned threads, Pace pace) : memory(std::move(about), threads, pace) {}
  ask::Memory memory;
};

namespace {

bool is_followed(const Request& request) {
  const auto* fit = std::get_if<FitRequest>(&request);
  return (fit != nullptr && !fit->weights_by_points) ||
         std::holds_alternative<SayRequest>(request) || std::holds_alternative<TryRequest>(request);
}

void require_followed(const Request& request) {
  if (!is_followed(request))
    throw InputError(
        Finding{{"", 0, "/kind"},
                std::string(kind_of(request)) + " is not answered while something moves",
                "ask for fit, say or try, or ask again when it is let go"});
}

KnobValue knob_value(const ask::Knob& knob, const ask::Question& question) {
  return {knob.path, knob.about, knob.unit, knob.get(question), knob.low, knob.high, knob.words};
}

}  // namespace

Study::Study(Case about, unsigned threads, Pace pace)
    : inside_(std::make_unique<Inside>(std::move(about), threads, pace)) {}
Study::~Study() = default;
Study::Study(Study&&) noexcept = default;
Study& Study::operator=(Study&&) noexcept = default;

const Case& Study::about() const { return inside_->memory.about(); }

Answer Study::answer(const Request& request, const Progress& progress) {
  if (inside_->memory.pace() == Pace::following) require_followed(request);
  return std::visit(
      [&](const auto& one) -> Answer { return ask::answer(inside_->memory, one, progress); },
      request);
}

void Study::require(const Stand& stand) { inside_->memory.standing(stand); }

std::vector<KnobValue> Study::paths(const Stand& stand) {
  const ask::Standing& standing = inside_->memory.standing(stand);
  std::vector<KnobValue> values;
  for (const ask::Knob& knob : inside_->memory.knobs(standing))
    values.push_back(knob_value(knob, standing.question));
  return values;
}

std::optional<KnobValue> Study::path(const Stand& stand, const std::string& path) {
  const ask::Standing& standing = inside_->memory.standing(stand);
  const ask::Knobs& knobs = inside_->memory.knobs(standing);
  const auto found = std::find_if(knobs.begin(), knobs.end(),
                                  [&path](const ask::Knob& knob) { return knob.path == path; });
  if (found == knobs.end()) return std::nullopt;
  return knob_value(*found, standing.question);
}

std::vector<SnapNumber> Study::snap_numbers(const Stand& stand) {
  std::vector<SnapNumber> numbers;
  for (const ask::NumberPlace& place : ask::snap_numbers(inside_->memory.standing(stand)))
    numbers.push_back(place.number);
  return numbers;
}

std::size_t Study::exact_solves() const { return inside_->memory.exact_solves(); }

}  // namespace callfit
