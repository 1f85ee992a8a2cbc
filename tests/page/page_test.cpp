// Pages of the demo's men: what is in the file, what is not, and what cannot become markup.
#include "../ask/demo_case.hpp"
#include "../cli/program.hpp"

#include <callfit/page/page.hpp>
#include <page/digest.hpp>
#include <page/markup.hpp>
#include <page/scripts.hpp>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace callfit;
using nlohmann::json;

namespace {

constexpr auto hostile = R"(</script><script>alert(1)</script><img src=x onerror=alert(2)>"'&<!--)";

page::Engine no_engine() {
  return {"var callfitEngine;", "module", std::string(64, '0'), "0.0.0", "abc"};
}

// A case of one chart with words in every column that holds some, and a page of it.
struct SmallCase {
  std::string name = "Rowan Invented", handle = "how often", tape = "Invented", scheme = "Balanced",
              note = "a note", headline;
  bool anonymous = false, with_rows = false;

  json document() const {
    const std::string chart =
        "game,level,opponent,down,to_go,yards_to_goal,family,result,yards,note,snap_id,team,season,"
        "clip,start,end\n"
        "GameWord,high_school,OpponentWord,1,10,60,boot,complete,6,\"" +
        note +
        "\",SnapWord,TeamWord,2025,ClipWord,1:00,1:10\n"
        "GameWord,high_school,OpponentWord,2,4,54,boot,incomplete,0,,SnapWord2,TeamWord,2025,"
        "ClipWord,2:00,2:10\n";
    json about{{"format", "callfit-case/1"},
               {"name", "CaseWord"},
               {"setting", "college"},
               {"schemes", {{{"scheme", "balanced"}, {"name", scheme}}}},
               {"quarterbacks",
                {{{"name", name}, {"charts", {{{"name", "FileWord.csv"}, {"csv", chart}}}}}}},
               {"options", {{"draws", 500}}},
               {"tries", {{{"name", "TryWord"}, {"changes", json::array()}}}},
               {"tape_source", tape},
               {"page",
                {{"handles",
                  {{{"path", "call.all.boot"}, {"words", handle}, {"from", 0.02}, {"to", 0.3}}}}}}};
    if (!headline.empty())
      about["style"] = {{"format", "callfit-style/1"}, {"wording", {{"fit_kicker", headline}}}};
    return about;
  }

  page::Page page() const { return page_of(document()); }

  page::Page page_of(const json& document) const {
    Files disk;
    Findings notices;
    const std::string text = document.dump();
    const CaseTexts texts = testing::shipped_texts(disk);
    const Case about = parse_case(text, "case.json", texts, disk.beside(), notices);
    return page::make_page({about, whole_case(about, text, "case.json", texts, disk.beside()), text,
                            "case.json", Stand{}, anonymous, with_rows, "1.2.3", "abcdef0"},
                           no_engine(), 1);
  }
};

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

}  // namespace

TEST_CASE("a page holds counts, no row, clip, note, game or opponent") {
  const page::Page page = SmallCase{}.page();
  const std::string& html = page.html;
  for (const char* word : {"GameWord", "OpponentWord", "SnapWord", "ClipWord", "FileWord",
                           "CaseWord", "TryWord", "a note", "1:10"})
    CHECK((html + page.page_case).find(word) == std::string::npos);
  CHECK(page.page_case.find("Rowan Invented") != std::string::npos);
  CHECK(html.find("Rowan Invented") != std::string::npos);
  CHECK(html.find("Respect local rules on data about minors.") != std::string::npos);
  CHECK(html.find("callfit 1.2.3 (abcdef0)") != std::string::npos);
}

TEST_CASE("rows are in a page where its analyst wants them, and it says so") {
  SmallCase words;
  const page::Page plain = words.page();
  words.with_rows = true;
  const page::Page page = words.page();
  CHECK(page.holds.find("holds his 2 charted snaps row by row") != std::string::npos);
  CHECK(page.html.find(page.holds) != std::string::npos);
  const std::string row = "<td>1</td><td>1 and 10 at 60</td><td>";
  CHECK(count_of(page.html, row) == 1);
  CHECK(count_of(plain.html, row) == 0);
  CHECK(count_of(page.html, "<td>complete 6</td>") == 1);
  CHECK(plain.holds.find("no row, clip or note") != std::string::npos);
  CHECK(plain.html.find(plain.holds) != std::string::npos);
  for (const char* word :
       {"GameWord", "OpponentWord", "SnapWord", "ClipWord", "a note", "TeamWord"})
    CHECK((page.html + page.page_case).find(word) == std::string::npos);
  CHECK(page.page_case == plain.page_case);
}

TEST_CASE("a page draws the analyst's numbers where no script runs") {
  const std::string html = SmallCase{}.page().html;
  // One strip a row of numbers and one beside the verdict, each with his marks and the reader's.
  CHECK(count_of(html, "<svg class=\"strip\"") == count_of(html, "<td class=\"yours\">") + 1);
  CHECK(count_of(html, "<circle class=\"his\"") == count_of(html, "<svg"));
  CHECK(count_of(html, "<circle class=\"yours\"") == count_of(html, "<svg"));
}

TEST_CASE("no text of a case becomes markup or script") {
  SmallCase words;
  words.name = words.handle = words.tape = hostile;
  words.note = R"(</script><script>alert(5)</script>)";
  words.scheme = R"(</script><script>alert(3)</script>)";
  words.headline = R"({player}</style><script>alert(4)</script>)";
  const std::string html = words.page().html;
  const std::string plain = SmallCase{}.page().html;
  for (const char* tag :
       {"<script", "</script", "<style", "</style", "<img", "<!--", "<body", "<svg"}) {
    INFO(tag);
    CHECK(count_of(html, tag) == count_of(plain, tag));
  }
  CHECK(count_of(html, "<script") == 4);
  CHECK(html.find("&lt;/script&gt;&lt;script&gt;alert(1)") != std::string::npos);
  CHECK(html.find("onerror=alert(2)>\"") == std::string::npos);
}

TEST_CASE("the policy of a page allows its own script and style, and nothing from elsewhere") {
  const std::string html = SmallCase{}.page().html;
  const auto between = [&html](const std::string& from, const std::string& to) {
    const std::size_t start = html.find(from) + from.size();
    return html.substr(start, html.find(to, start) - start);
  };
  const std::string policy = between("Content-Security-Policy\" content=\"", "\"");
  const auto escaped = [](const std::string& text) {
    page::Markup markup;
    return markup.text(text).bytes();
  };
  CHECK(policy.starts_with("default-src &#39;none&#39;; "));
  CHECK(policy.find(escaped(page::policy_hash(between("<script type=\"module\">", "</script>")))) !=
        std::string::npos);
  CHECK(policy.find(escaped(page::policy_hash(between("<style>", "</style>")))) !=
        std::string::npos);
  CHECK(policy.find("http") == std::string::npos);
  CHECK(policy.find("unsafe-inline") == std::string::npos);
  CHECK(policy.find("&#39;unsafe-eval") == std::string::npos);
  CHECK(count_of(html, "src=\"http") + count_of(html, "href=\"http") == 0);
  CHECK(count_of(html, " style=\"") + count_of(html, " onclick") == 0);
}

TEST_CASE("handles that nobody chose are the usual ones, from the page's own study") {
  json document = SmallCase{}.document();
  document.erase("page");
  CHECK(count_of(SmallCase{}.page_of(document).html, "<input type=\"range\"") == 5);
}

TEST_CASE("an anonymous page names nobody, and is refused where words of the case do") {
  SmallCase words;
  words.anonymous = true;
  const page::Page anonymous = words.page();
  const std::string& html = anonymous.html;
  CHECK((html + anonymous.page_case).find("Rowan") == std::string::npos);
  CHECK(html.find("New starter") != std::string::npos);
  words.handle = "What Rowan Invented gives";
  CHECK_THROWS_WITH(words.page(), Catch::Contains("names Rowan Invented"));
}

TEST_CASE("without an engine a page leaves the engine most of its room") {
  std::size_t parts = 0;
  const page::Page page = SmallCase{}.page();
  for (const auto& [part, size] : page.parts) parts += size;
  CHECK(parts < page.html.size());
  CHECK(page.html.size() < 500'000);
}

TEST_CASE("SHA-256 as FIPS 180-4 has it") {
  // "abc" and the empty message, the examples of the standard's authors.
  CHECK(page::sha256_hex("abc") ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(page::sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(page::policy_hash("") == "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
}

TEST_CASE("JSON that is data ends no element and reads back") {
  page::Markup markup;
  const json value{{"a", hostile}, {"<b>", "\\<"}};
  markup.json(value.dump());
  CHECK(markup.bytes().find('<') == std::string::npos);
  CHECK(json::parse(markup.bytes()) == value);
  CHECK_THROWS_AS(page::Markup{}.own_file("a </script> b"), std::logic_error);
}

TEST_CASE("modules become one script") {
  CHECK(page::joined({"import { a } from \"./a.js\";\nexport function b() {}\n", "b();"}) ==
        "function b() {}\nb();");
}

TEST_CASE("an engine is known by its digests and its version") {
  const test::Scratch folder;
  Files disk;
  const auto read = [&] { return page::read_engine(disk, folder.path().string(), "1.0.0"); };
  CHECK_THROWS_WITH(read(), Catch::Contains("holds no engine for pages") &&
                                Catch::Contains("scripts/page-engine"));
  const auto manifest = [](const std::string& version, const std::string& module) {
    return json{{"format", "callfit-engine/1"},
                {"version", version},
                {"commit", "abc"},
                {"glue", {{"file", "a.js"}, {"sha256", page::sha256_hex("glue")}}},
                {"module", {{"file", module}, {"sha256", page::sha256_hex("module")}}}}
        .dump();
  };
  folder.write("a.js", "glue");
  folder.write("a.wasm.gz", "module");
  folder.write("callfit-engine.json", manifest("1.0.0", "a.wasm.gz"));
  CHECK(read().digest == page::sha256_hex("module"));
  folder.write("a.wasm.gz", "another");
  CHECK_THROWS_WITH(read(), Catch::Contains("is not the file that callfit-engine.json names"));
  folder.write("callfit-engine.json", manifest("0.9.0", "a.wasm.gz"));
  CHECK_THROWS_WITH(read(), Catch::Contains("is an engine of version 0.9.0"));
  folder.write("callfit-engine.json", manifest("1.0.0", "../a.wasm.gz"));
  CHECK_THROWS_WITH(read(), Catch::Contains("/module/file"));
}

TEST_CASE("the program says in one line that it has no engine") {
  const test::Scratch folder;
  const std::string page = (folder.path() / "page.html").string();
  const test::Outcome outcome = test::run("page " + test::source_file("profiles/demo/case.json") +
                                          " -o " + page + " --engine " + folder.path().string());
  CHECK(outcome.code == 1);
  CHECK(count_of(outcome.err, "\n") == 1);
  CHECK(outcome.err.find("scripts/page-engine") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(page));
  CHECK(test::run("page " + test::source_file("profiles/demo/case.json") + " -o page.pdf").code ==
        2);
}
