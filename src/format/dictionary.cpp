#include <callfit/base/nearest.hpp>
#include <callfit/chart/columns.hpp>
#include <callfit/chart/snap.hpp>
#include <callfit/format/csv.hpp>
#include <callfit/format/dictionary.hpp>
#include <format/chart_header.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

namespace callfit {
namespace {

using Names = std::vector<std::string>;

template <class Enum>
Names words_and_nothing() {
  Names names = all_words<Enum>();
  names.emplace_back();
  return names;
}

Names all_places() {
  Names names = all_words<ChartColumn>();
  std::erase(names, word(ChartColumn::note));
  for (const auto name : {place::any, place::yes_no, place::header, place::side, place::row})
    names.emplace_back(name);
  return names;
}

bool is_number(std::string_view text) {
  int value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  return failed == std::errc() && end == text.data() + text.size();
}

/// What may stand behind a word of this place; nothing where any text may.
std::optional<Names> meanings_of(std::string_view where) {
  if (where == place::any || where == place::row) return Names{""};
  if (where == place::header) return all_words<ChartColumn>();
  if (where == place::side) return Names{"own", "opponent"};
  if (where == place::yes_no || kind_of(where) == ColumnKind::yes_no) return Names{"yes", "no", ""};
  if (where == word(ChartColumn::shell)) return words_and_nothing<Shell>();
  if (where == word(ChartColumn::platform)) return words_and_nothing<Platform>();
  if (where == word(ChartColumn::lane)) return words_and_nothing<Lane>();
  if (where != word(ChartColumn::result)) return std::nullopt;
  Names names = words_and_nothing<Result>();
  names.emplace_back(how_he_scored);
  return names;
}

bool holds_numbers(std::string_view where) { return kind_of(where) == ColumnKind::number; }

class Reader {
 public:
  explicit Reader(std::string source) : source_(std::move(source)) {}

  Dictionary read(std::string_view text) {
    CsvCutter cutter(source_,
                     [this](const CsvRow& row) { has_header_ ? take(row) : read_header(row); });
    cutter.feed(text);
    cutter.finish();
    if (!faults_.empty()) throw InputError(std::move(faults_));
    return std::move(dictionary_);
  }

 private:
  void read_header(const CsvRow& row) {
    has_header_ = true;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const auto found =
          std::find_if(row.fields.begin(), row.fields.end(),
                       [&](const std::string& field) { return plain_word(field) == columns[i]; });
      places_[i] = static_cast<std::size_t>(found - row.fields.begin());
      if (found == row.fields.end())
        faults_.push_back({{source_, row.line, std::string(columns[i])},
                           "the column is missing",
                           "begin with the row column,from,to"});
    }
    sound_ = faults_.empty();
  }

  void take(const CsvRow& row) {
    if (!sound_) return;
    const auto field = [&](std::size_t i) { return trimmed(row.fields[places_[i]]); };
    const std::string where = plain_word(field(0));
    const Names known = all_places();
    if (std::find(known.begin(), known.end(), where) == known.end()) {
      fault(row, "column", "words have no place \"" + where + "\"", suggest(where, known));
    } else if (field(1).empty()) {
      fault(row, "from", "is blank", "write the word that stands in charts");
    } else if (check_meaning(row, where, field(2))) {
      dictionary_.add(where, field(1), field(2));
    }
  }

  bool check_meaning(const CsvRow& row, std::string_view where, std::string_view to) {
    if (holds_numbers(where)) {
      if (to.empty() || is_number(to) || to == own_yards_to_goal) return true;
      fault(row, "to", "\"" + std::string(to) + "\" is not a whole number",
            "write one such as 7, or " + std::string(own_yards_to_goal));
      return false;
    }
    auto meanings = meanings_of(where);
    if (!meanings || std::find(meanings->begin(), meanings->end(), to) != meanings->end())
      return true;
    std::erase(*meanings, "");
    fault(row, "to", std::string(where) + " cannot be \"" + std::string(to) + "\"",
          meanings->empty() ? "leave it blank" : suggest(to, *meanings));
    return false;
  }

  void fault(const CsvRow& row, std::string_view field, const std::string& what,
             const std::string& mend) {
    faults_.push_back({{source_, row.line, std::string(field)}, what, mend});
  }

  static constexpr std::array<std::string_view, 3> columns{"column", "from", "to"};
  std::string source_;
  bool has_header_ = false;
  bool sound_ = false;
  std::array<std::size_t, 3> places_{};
  Dictionary dictionary_;
  Findings faults_;
};

}  // namespace

void Dictionary::add(std::string_view where, std::string_view from, std::string_view to) {
  words_[std::string(where)].insert_or_assign(plain_word(from), std::string(to));
}

std::optional<std::string_view> Dictionary::meaning(std::string_view where,
                                                    std::string_view from) const {
  const auto words = words_.find(where);
  if (words == words_.end()) return std::nullopt;
  const auto found = words->second.find(plain_word(from));
  if (found == words->second.end()) return std::nullopt;
  return found->second;
}

std::string_view accepted_words_text() {
  return R"(column,from,to
yes_no,y,yes
yes_no,true,yes
yes_no,1,yes
yes_no,n,no
yes_no,false,no
yes_no,0,no
)";
}

std::string_view mended_words_text() {  // NOLINT(readability-function-size): a table
  return R"(column,from,to
any,n/a,
any,na,
any,#n/a,
any,-,
any,--,
any,–,
any,—,
any,?,
yes_no,x,yes
yes_no,✓,yes
yes_no,✔,yes
yes_no,j,yes
yes_no,ja,yes
yes_no,wahr,yes
yes_no,oui,yes
yes_no,vrai,yes
yes_no,si,yes
yes_no,sí,yes
yes_no,sì,yes
yes_no,sim,yes
yes_no,verdadero,yes
yes_no,vero,yes
yes_no,nein,no
yes_no,falsch,no
yes_no,non,no
yes_no,faux,no
yes_no,não,no
yes_no,nao,no
yes_no,falso,no
result,int,intercepted
result,interception,intercepted
result,comp,complete
result,cmp,complete
result,completion,complete
result,inc,incomplete
result,incomp,incomplete
result,incompletion,incomplete
result,sacked,sack
result,scr,scramble
result,rush,run
result,penalty,no_play
result,td,{touchdown}
result,touchdown,{touchdown}
yards,td,{yards_to_goal}
to_go,goal,{yards_to_goal}
to_go,g,{yards_to_goal}
to_go,inches,1
down,1st,1
down,2nd,2
down,3rd,3
down,4th,4
quarter,q1,1
quarter,q2,2
quarter,q3,3
quarter,q4,4
quarter,ot,5
yards_to_goal,midfield,50
lane,l,left
lane,m,middle
lane,r,right
lane,mid,middle
shell,0,none_high
shell,0_high,none_high
shell,1,one_high
shell,1_high,one_high
shell,2,two_high
shell,2_high,two_high
level,hs,high_school
side,own,own
side,our,own
side,opp,opponent
side,opponent,opponent
side,their,opponent
header,dn,down
header,dist,to_go
header,distance,to_go
header,yds,yards
header,gain,yards
header,qtr,quarter
row,total,
row,totals,
row,sum,
row,average,
row,summe,
row,gesamt,
)";
}

Dictionary parse_dictionary(std::string_view text, const std::string& source) {
  return Reader(source).read(text);
}

}  // namespace callfit
