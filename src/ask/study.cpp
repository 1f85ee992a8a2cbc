#include <ask/answers.hpp>
#include <callfit/ask/study.hpp>

namespace callfit {

class Study::Inside {
 public:
  Inside(Case about, unsigned threads) : memory(std::move(about), threads) {}
  ask::Memory memory;
};

Study::Study(Case about, unsigned threads)
    : inside_(std::make_unique<Inside>(std::move(about), threads)) {}
Study::~Study() = default;
Study::Study(Study&&) noexcept = default;
Study& Study::operator=(Study&&) noexcept = default;

const Case& Study::about() const { return inside_->memory.about(); }

Answer Study::answer(const Request& request, const Progress& progress) {
  return std::visit(
      [&](const auto& one) -> Answer { return ask::answer(inside_->memory, one, progress); },
      request);
}

void Study::require(const Stand& stand) { inside_->memory.standing(stand); }

std::vector<KnobValue> Study::paths(const Stand& stand) {
  const ask::Standing& standing = inside_->memory.standing(stand);
  std::vector<KnobValue> values;
  for (const ask::Knob& knob : inside_->memory.knobs(standing))
    values.push_back({knob.path, knob.about, knob.unit, knob.get(standing.question), knob.low,
                      knob.high, knob.words});
  return values;
}

std::size_t Study::exact_solves() const { return inside_->memory.exact_solves(); }

}  // namespace callfit
