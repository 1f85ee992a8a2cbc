#include <callfit/base/shared_text.hpp>

#include <catch2/catch.hpp>

#include <stdexcept>
#include <thread>
#include <vector>

using namespace callfit;

TEST_CASE("a shared text reads like a text") {
  SharedText text = "two high";
  CHECK(text == "two high");
  CHECK(text != std::string("two"));
  CHECK(text.str() + "!" == "two high!");
  CHECK(std::string_view(text).substr(4) == "high");
  CHECK(text < SharedText("two low"));
  CHECK(SharedText().empty());
  CHECK(SharedText("").empty());
  CHECK(SharedText() == "");
  const std::string with_nul("a\0b", 3);
  CHECK(SharedText(with_nul).view() == with_nul);
  CHECK(sizeof(SharedText) == sizeof(void*));
}

TEST_CASE("copies share their bytes and outlive the first") {
  SharedText copy;
  {
    const SharedText first = std::string(100, 'x');
    copy = first;
    CHECK(copy.view().data() == first.view().data());
  }
  CHECK(copy == std::string(100, 'x'));
  const SharedText moved = std::move(copy);
  CHECK(moved == std::string(100, 'x'));
  copy = moved;
  copy = "other";
  CHECK(moved == std::string(100, 'x'));
  CHECK(copy == "other");
}

TEST_CASE("copies may come and go on several threads") {
  const SharedText text = "shared";
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([text] {
      for (int i = 0; i < 10000; ++i) {
        const SharedText copy = text;
        if (copy.empty()) throw std::logic_error("lost");
      }
    });
  for (std::thread& thread : threads) thread.join();
  CHECK(text == "shared");
}
