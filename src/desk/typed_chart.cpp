#include <callfit/base/finding.hpp>
#include <callfit/files/files.hpp>
#include <desk/typed_chart.hpp>

#include <filesystem>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;

charting::KeyMap keys_of(const std::string& path, const ChartWords& words) {
  if (!fs::exists(path)) return charting::usual_keys();
  return charting::keys_from_json(Files{}.read(path), path, words);
}

charting::KeptBeside kept_beside(const ChartFile& file) {
  charting::KeptBeside kept;
  if (const std::string text = file.marks(); !text.empty())
    kept.waiting = charting::marks_in(text, file.marks_path());
  if (const std::string text = file.upheld(); !text.empty())
    kept.upheld = charting::upheld_in(text, file.upheld_path());
  return kept;
}

charting::Charting charting_of(const ChartFile& file, const Taping& taping) {
  return {charting::ChartRows(file.text(), file.path(), taping.words),
          keys_of(taping.keys, taping.words), kept_beside(file)};
}

}  // namespace

TypedChart::TypedChart(const Taping& taping)
    : taping_(taping), file_(taping.chart), charting_(charting_of(file_, taping)) {}

void TypedChart::change(const std::function<void(charting::Charting&)>& act) {
  fault_ = file_.only_looked_at();
  if (!fault_.empty()) return;
  const std::size_t before = charting_.revision();
  act(charting_);
  if (charting_.revision() != before) write();
}

void TypedChart::write() {
  const auto& waiting = charting_.waiting();
  const auto& upheld = charting_.upheld();
  try {
    file_.write({charting_.rows().text(),
                 waiting.empty() ? std::string() : charting::marks_text(waiting),
                 upheld.empty() ? std::string() : charting::upheld_text(upheld)});
    ++version_;
  } catch (const InputError& error) {
    fault_ = to_text(error.findings().front());
    charting_.take_back();
  }
}

void TypedChart::seal() {
  file_.seal();
  charting_.forget_history();
}

void TypedChart::look_again() {
  if (file_.only_looked_at().empty() || !file_.look_again()) return;
  charting_ = charting_of(file_, taping_);
  ++version_;
}

}  // namespace callfit::desk
