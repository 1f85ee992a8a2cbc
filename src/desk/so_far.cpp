#include <callfit/ask/study.hpp>
#include <callfit/base/finding.hpp>
#include <callfit/report/answer_text.hpp>
#include <desk/so_far.hpp>
#include <desk/view.hpp>

#include <filesystem>
#include <utility>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;

// Whose chart it is; the first one where it is nobody's.
std::size_t owner_of(const std::string& chart, const Case& about) {
  for (std::size_t q = 0; q < about.quarterbacks.size(); ++q)
    if (const auto& tape = about.quarterbacks[q].tape)
      for (const Chart& one : tape->charts)
        if (fs::weakly_canonical(one.source) == fs::weakly_canonical(chart)) return q;
  return 0;
}

}  // namespace

SoFar::SoFar(std::function<Case()> read, std::string chart)
    : read_(std::move(read)), chart_(std::move(chart)) {}

SoFar::~SoFar() {
  if (thread_.joinable()) thread_.join();
}

std::optional<SaidSoFar> SoFar::of(std::size_t version) {
  const std::lock_guard guard(mutex_);
  if (!is_working_ && (!said_ || said_->version != version)) {
    if (thread_.joinable()) thread_.join();
    thread_ = std::thread([this, version] {
      SaidSoFar said = worked_out(version);
      const std::lock_guard inner(mutex_);
      said_ = std::move(said);
      is_working_ = false;
    });
    is_working_ = true;  // not where no thread could be had; it waits for the guard
  }
  return said_;
}

bool SoFar::is_working() {
  const std::lock_guard guard(mutex_);
  return is_working_;
}

SaidSoFar SoFar::worked_out(std::size_t version) const {
  SaidSoFar said{version, {}, {}, {}};
  try {
    Case about = read_();
    Stand stand;
    stand.quarterback = owner_of(chart_, about);
    Study study(std::move(about), 1);  // the other cores are the page's
    said.verdict = verdict_of(study, stand);
    said.next = next_words(std::get<NextAnswer>(study.answer(NextRequest{stand})));
  } catch (const InputError& error) {
    said.fault = to_text(error.findings().front());
  } catch (const std::exception& error) {
    said.fault = error.what();
  }
  return said;
}

}  // namespace callfit::desk
