// What readers of a page are told, by the program's own build: tests/browser/agree.js holds a
// page's engine against it, tests/browser/engine-times.js the time that it takes.
#include <callfit/files/files.hpp>
#include <callfit/reader/reader.hpp>
#include <callfit/report/door.hpp>

#include <ctime>
#include <iostream>

namespace {

// Processor seconds of a question to a case that was just opened, which is not counted.
double time_of(const std::string& page_case, const std::string& request) {
  callfit::Reader reader(callfit::parse_page_case(page_case, "page"), 1);
  const std::clock_t start = std::clock();
  callfit::answer_json_or_error(reader.study(), request);
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

}  // namespace

/// The file of a callfit-page/1 text; requests of Reader::answer() on standard input, a line each;
/// answers the same way. With a second word "times": requests of answer_json_or_error(), and the
/// processor seconds of each.
int main(int count, char** words) {
  if (count < 2 || count > 3 || (count == 3 && std::string(words[2]) != "times")) return 2;
  callfit::Files disk;
  const std::string page_case = disk.read(words[1]);
  callfit::Reader reader(callfit::parse_page_case(page_case, words[1]));
  for (std::string request; std::getline(std::cin, request);)
    if (count == 3)
      std::cout << time_of(page_case, request) << '\n';
    else
      std::cout << reader.answer(request) << '\n';
}
