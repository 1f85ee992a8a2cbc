// A desk on several threads: one listens and answers, one works out what the typed chart says so
// far, and others ask at once. The preset thread watches it for races.
#include "../ask/demo_case.hpp"
#include "client.hpp"
#include "taping.hpp"

#include <callfit/ask/study.hpp>
#include <callfit/charting/chart_rows.hpp>
#include <callfit/desk/server.hpp>
#include <desk/view.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <functional>
#include <memory>
#include <thread>

using namespace callfit;
using namespace callfit::desk;
using nlohmann::json;

namespace {

constexpr int rows_typed = 6;
constexpr std::chrono::minutes patience{5};  // sanitizers are slow

/// The case of one man whose chart is typed in `folder`, as it is on the disk.
std::function<Case()> case_in(const test::Scratch& folder) {
  const json document{{"format", "callfit-case/1"},
                      {"setting", "college"},
                      {"schemes", {"balanced"}},
                      {"quarterbacks", {{{"name", "A"}, {"charts", {"game.csv"}}}}},
                      {"options", {{"draws", fewest_draws}}}};
  return [file = folder.write("case.json", document.dump()).string()] {
    Files disk;
    Findings notices;
    return parse_case(disk.read(file), file, testing::shipped_texts(disk), disk.beside(), notices);
  };
}

Opened opened_in(const test::Scratch& folder) {
  folder.write("game.csv", charting::ChartRows::fresh_text() +
                               "G1,college,,,1,10,75,handoff,run,4,,,,,,,,,,,,,,\n");
  Taping taping = taping_in(folder);
  taping.read_case = case_in(folder);
  Opened opened{taping.read_case(), "", "", folder.path().string(), {}};
  opened.taping = taping;
  return opened;
}

/// A desk that answers on a thread of its own, with two for each question.
class BusyDesk {
 public:
  explicit BusyDesk(Opened opened)
      : desk_(std::move(opened), 2),
        server_(0, patient()),
        thread_([this] { server_.run([this](const Call& call) { return desk_.answer(call); }); }) {}
  ~BusyDesk() {
    server_.stop();
    thread_.join();
  }
  BusyDesk(const BusyDesk&) = delete;
  BusyDesk& operator=(const BusyDesk&) = delete;

  /// The reply's document; null where it is not 200. Safe between threads.
  json ask(const std::string& target, const json& question = json::object()) const {
    const std::string body = question.dump();
    const test::Line line(server_.port());
    line.send("POST " + target + " HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: " +
              std::to_string(body.size()) + "\r\n\r\n" + body);
    const std::string reply = line.rest(patience);
    const std::size_t head = reply.find("\r\n\r\n");
    if (test::status_of(reply) != 200 || head == std::string::npos) return nullptr;
    return json::parse(reply.substr(head + 4), nullptr, false);
  }

 private:
  static Limits patient() {
    Limits limits;
    limits.wait = patience;
    return limits;
  }

  Desk desk_;
  Server server_;
  std::thread thread_;
};

json keys(const std::vector<std::string>& names) {
  json list = json::array();
  for (const std::string& name : names) list.push_back({{"key", name}});
  return {{"keys", list}};
}

/// Asks until what is said rests on the chart as it is.
json latest(const BusyDesk& running) {
  const auto end = std::chrono::steady_clock::now() + patience;
  json said;
  do {
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    said = running.ask("/charting/so-far");
  } while (std::chrono::steady_clock::now() < end &&
           (said.is_null() || !said.contains("verdict") || said["is_old"] == true));
  return said;
}

}  // namespace

TEST_CASE("requests at once are answered while a chart is typed and a thread tells what it says") {
  const test::Scratch folder;
  const BusyDesk running(opened_in(folder));
  std::vector<json> typed, told, seen;
  std::thread typist([&] {
    for (int i = 0; i < rows_typed; ++i)
      typed.push_back(running.ask("/charting/keys", keys({"Enter", "g", "3", "Shift+Enter"})));
  });
  std::thread listener([&] {
    for (int i = 0; i < rows_typed; ++i) told.push_back(running.ask("/charting/so-far"));
  });
  for (int i = 0; i < 2; ++i)
    seen.push_back(running.ask("/view", {{"stand", {{"changes", json::array()}}}}));
  typist.join();
  listener.join();
  for (const auto* replies : {&typed, &told, &seen})
    CHECK(std::none_of(replies->begin(), replies->end(), [](const json& one) {
      return one.is_null() || one.is_discarded() || !one.value("fault", "").empty();
    }));

  const json said = latest(running);
  Case about = case_in(folder)();
  CHECK(about.quarterbacks.front().tape->charts.front().snaps.size() == 1 + rows_typed);
  Study alone(std::move(about), 1);
  CHECK(said["is_old"] == false);
  CHECK(said["verdict"] == verdict_of(alone, {}));
}
