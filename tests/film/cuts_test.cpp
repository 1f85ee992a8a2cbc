// Cut lists, read back by readers of their own.
#include <callfit/film/cuts.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>
#include <vector>

namespace callfit {
namespace {

const std::vector<Cut> cuts{{"a 'game'.mp4", 10, 14.5, "deep, complete"},
                            {"b.mp4", 61.2, 66, "a <b> & \"c\" --> d\nmore"},
                            {"a 'game'.mp4", 3599, 3605.25, ""}};

struct Event {
  int number = 0;
  double in = 0, out = 0, record_in = 0, record_out = 0;
  std::string clip;
};

/// Seconds that a timecode stands for, by ST 12-1's count of the numbers left out before it.
double seconds_of(const std::string& code, const FrameRate& rate) {
  int hour = 0;
  int minute = 0;
  int second = 0;
  int frame = 0;
  char colon = 0;
  std::istringstream in(code);
  in >> hour >> colon >> minute >> colon >> second >> colon >> frame;
  const int minutes = 60 * hour + minute;
  const int left_out = rate.drop_frame ? rate.nominal() / 15 * (minutes - minutes / 10) : 0;
  const int number = (60 * minutes + second) * rate.nominal() + frame - left_out;
  return static_cast<double>(number) * rate.seconds / rate.frames;
}

std::vector<Event> events_of(const std::string& list, const FrameRate& rate) {
  std::vector<Event> events;
  std::istringstream in(list);
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("* FROM CLIP NAME: ")) events.back().clip = line.substr(18);
    if (line.empty() || line[0] < '0' || line[0] > '9') continue;
    std::istringstream fields(line);
    std::string reel;
    std::string track;
    std::string transition;
    std::array<std::string, 4> codes;
    Event event;
    fields >> event.number >> reel >> track >> transition;
    for (std::string& code : codes) fields >> code;
    CHECK((reel == "AX" && track == "V" && transition == "C"));
    event.in = seconds_of(codes[0], rate);
    event.out = seconds_of(codes[1], rate);
    event.record_in = seconds_of(codes[2], rate);
    event.record_out = seconds_of(codes[3], rate);
    events.push_back(event);
  }
  return events;
}

}  // namespace

TEST_CASE("an edit decision list says the times of its cuts, at every rate") {
  for (const std::string& word : frame_rate_words()) {
    CAPTURE(word);
    const FrameRate rate = frame_rate(word).value();
    const double frame = static_cast<double>(rate.seconds) / rate.frames;
    const std::string list = edit_decision_list("Deep throws", cuts, rate);
    CHECK(list.starts_with(rate.drop_frame ? "TITLE: Deep throws\nFCM: DROP FRAME\n"
                                           : "TITLE: Deep throws\nFCM: NON-DROP FRAME\n"));
    const std::vector<Event> events = events_of(list, rate);
    REQUIRE(events.size() == cuts.size());
    double at = 0;
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      CHECK(events[i].number == static_cast<int>(i) + 1);
      CHECK(events[i].clip == cuts[i].clip);
      CHECK(std::abs(events[i].in - cuts[i].start) <= frame / 2 + 1e-9);
      CHECK(std::abs(events[i].out - cuts[i].end) <= frame / 2 + 1e-9);
      CHECK(events[i].record_in == Approx(at).margin(1e-9));
      CHECK(events[i].record_out - at == Approx(events[i].out - events[i].in).margin(1e-9));
      at = events[i].record_out;
    }
  }
}

TEST_CASE("an edit decision list holds no more than its three digits") {
  const std::vector<Cut> many(1000, Cut{"a.mp4", 1, 2, ""});
  CHECK_THROWS_AS(edit_decision_list("x", many, FrameRate{}), std::invalid_argument);
}

TEST_CASE("the script for ffmpeg quotes names") {
  CHECK(concat_script({cuts.data(), 1}) ==
        "ffconcat version 1.0\nfile 'a '\\''game'\\''.mp4'\ninpoint 10.000\noutpoint 14.500\n");
}

TEST_CASE("a word of a shell is quoted where it needs it") {
  CHECK(shell_word("film/a-1_b.mp4") == "film/a-1_b.mp4");
  CHECK(shell_word("") == "''");
  CHECK(shell_word("a b") == "'a b'");
  CHECK(shell_word("$(x)'`;") == "'$(x)'\\''`;'");
}

TEST_CASE("ffmpeg is told names as names, and times to the millisecond") {
  const std::vector<std::string> words = piece_words({"http://a/b", 61.2, 66, "unread"});
  const auto after = [&words](const char* option) {
    return *(std::find(words.begin(), words.end(), option) + 1);
  };
  CHECK(after("-i") == "file:http://a/b");
  CHECK(after("-protocol_whitelist") == "file");
  CHECK(after("-ss") == "61.200");
  CHECK(after("-vf").starts_with("trim=end=4.800,"));
  CHECK(pieces_list(2) == "ffconcat version 1.0\nfile 1.mp4\nfile 2.mp4\n");
}

TEST_CASE("captions follow one another under what is said of all, and are no markup") {
  CHECK(caption_sheet({"3 of <5>"}, cuts) ==
        "WEBVTT\n\n00:00:00.000 --> 00:00:12.000 line:0\n3 of &lt;5&gt;\n\n"
        "1\n00:00:00.000 --> 00:00:04.500\ndeep, complete\n\n"
        "2\n00:00:04.500 --> 00:00:09.300\na &lt;b&gt; &amp; \"c\" --&gt; d more\n\n"
        "3\n00:00:09.300 --> 00:00:15.550\n\n");
  CHECK_THAT(caption_sheet({"x", "y"}, {cuts.data(), 1}),
             Catch::Contains("00:00:00.000 --> 00:00:02.250 line:0\nx\n\n"
                             "00:00:02.250 --> 00:00:04.500 line:0\ny\n"));
}

TEST_CASE("the table of cuts quotes what needs it") {
  CHECK(cut_table({cuts.data(), 2}) ==
        "number,clip,start,end,caption\n1,a 'game'.mp4,10.000,14.500,\"deep, complete\"\n"
        "2,b.mp4,61.200,66.000,\"a <b> & \"\"c\"\" --> d\nmore\"\n");
}

}  // namespace callfit
