#include "cli/console.hpp"
#include "cli/questions.hpp"
#include "report/question_json.hpp"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <iostream>

namespace callfit::cli {
namespace {

Options brief_options() {
  Options options(
      {"brief PROFILE --against PROFILE --scheme NAME|FILE [-o FILE.md]",
       "Half a page in plain English about two quarterbacks in one scheme: the answer, three "
       "reasons with numbers, the biggest doubt, one wrinkle to try, what to chart next, the "
       "caution. It claims no more than the intervals allow.",
       "  callfit brief new.profile.json --against last.profile.json --scheme balanced -o "
       "brief.md"});
  add_question_options(options, 500);
  options.add()("against", po::value<std::string>()->value_name("PROFILE"),
                "the other quarterback")("output,o", po::value<std::string>()->value_name("FILE"),
                                         "write Markdown (.md) or text there");
  return options;
}

}  // namespace

int brief_command(const Words& words) {
  Files disk;
  const auto values = brief_options().parse(words, disk);
  if (!values) return exit_ok;
  const std::string against = required_text(*values, "against");
  const std::string file = text_of(*values, "output");
  const Question first = load_question(disk, *values);
  const Question second = load_question(disk, against, first.ground);
  const Brief brief = make_brief(first, second, draw_options_of(*values), progress_line("brief"));
  if (!file.empty())
    disk.write(file, brief_text(brief, std::filesystem::path(file).extension() == ".md"));
  if (wants_json(*values)) {
    auto request = request_of(*values, first);
    request["against"] = against;
    print_json("brief", request, brief_json(brief));
  } else if (file.empty()) {
    std::cout << brief_text(brief, false);
  }
  return exit_ok;
}

}  // namespace callfit::cli
