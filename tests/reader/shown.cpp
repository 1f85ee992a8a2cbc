// What readers of a page are told, by the program's own build: tests/browser/agree.js holds a
// page's engine against it.
#include <callfit/files/files.hpp>
#include <callfit/reader/reader.hpp>

#include <iostream>

/// The file of a callfit-page/1 text; requests of Reader::answer() on standard input, a line each;
/// answers the same way.
int main(int count, char** words) {
  if (count != 2) return 2;
  callfit::Files disk;
  callfit::Reader reader(callfit::parse_page_case(disk.read(words[1]), words[1]));
  for (std::string request; std::getline(std::cin, request);)
    std::cout << reader.answer(request) << '\n';
}
