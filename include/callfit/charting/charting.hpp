// A chart being typed beside a tape, as a value: keys go in, rows come of it. It opens no file and
// plays no film.
#pragma once

#include <callfit/charting/chart_rows.hpp>
#include <callfit/charting/following.hpp>
#include <callfit/charting/keys.hpp>

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::charting {

/// A snap of which the time is marked and nothing else charted yet.
struct Mark {
  std::string clip;
  std::string start, end;  ///< seconds, as a chart has them; `end` may be blank

  bool operator==(const Mark&) const = default;
};

/// Marks as CSV with the columns clip, start and end, and back. Throws InputError for other text.
std::string marks_text(const std::vector<Mark>& marks);
std::vector<Mark> marks_in(std::string_view text, const std::string& source);

/// A key as it was pressed. Without film (from paper) `clip` is empty.
struct Press {
  std::string key;
  std::string clip;  ///< the film's name for the chart
  double at = 0;     ///< seconds into it
  bool is_playing = false;
};

/// Where the film has to go: the place of a row or mark that was opened.
struct FilmPlace {
  std::string clip;
  double start = 0;
  std::optional<double> end;
};

/// What is typed of one row, new or there already.
struct OpenRow {
  std::size_t place = 0;  ///< index of the row, or where the new one will stand
  bool is_new = true;
  bool was_waiting = false;                       ///< its time was marked before
  std::map<ChartColumn, std::string> typed = {};  ///< by hand; blank: made blank
  ColumnSet skipped = {};
  std::optional<Question> turned_to = {};  ///< asked out of turn
  std::string typing = {};                 ///< digits or text that are not a value yet
};

/// What a cell of the open row stands on.
enum class Standing { blank, typed, follows };

class Charting {
 public:
  Charting(ChartRows rows, KeyMap keys, std::vector<Mark> waiting = {});

  /// Does what the key means. What it may not do is said by fault() and changes nothing.
  void press(const Press& press);

  /// Columns for film where the chart has none (clip, start, end), blank in every row.
  void add_film_columns();
  /// Takes the last change back without a way forward to it, for whoever could not write it down.
  void take_back();

  const ChartRows& rows() const { return rows_; }
  const std::vector<Mark>& waiting() const { return waiting_; }
  const std::optional<OpenRow>& open() const { return open_; }
  const KeyMap& keys() const { return keys_; }
  /// Grows with every change of rows and of waiting marks.
  std::size_t revision() const { return revision_; }
  /// Drives that ended with a row finished here.
  std::size_t drives_ended() const { return drives_ended_; }

  /// Empty where the last key did what it means; else the rule that it breaks and what would do.
  const std::string& fault() const { return fault_; }
  /// What the last key did, where that is worth saying.
  const std::string& told() const { return told_; }
  /// Set by a key that opened a row or mark with a time.
  const std::optional<FilmPlace>& film() const { return film_; }
  /// Where the open row lies on its film, if its time is known.
  std::optional<FilmPlace> span() const;

  /// What the next key answers; nothing where no row is open or all is answered. Empty: the number
  /// of a row.
  std::optional<Question> asked() const;
  /// What is asked once the number that is being typed is one; nothing where none is.
  std::optional<Question> asked_then() const;
  bool asks_row() const { return asks_row_; }
  const std::string& row_number() const { return row_number_; }
  /// Whether letters are text now.
  bool is_typing_text() const;
  std::vector<Choice> choices(const Question& question) const;
  /// What `offer_key` would write in the asked column; empty where nothing is offered.
  std::string offer() const;

  /// A column of the open row: its value, and what it stands on.
  std::string value(ChartColumn column) const;
  Standing standing(ChartColumn column) const;
  /// What is possible but odd in the open row beside the one before it.
  Findings odd() const;

 private:
  struct RowChange {
    std::size_t place = 0;
    std::optional<RowText> before, after;
  };
  /// What undoing brings back, and redoing in turn.
  struct Moment {
    std::optional<OpenRow> open;
    std::optional<RowChange> change;
    std::optional<std::vector<Mark>> waiting;
  };

  using Answers = std::vector<std::pair<ChartColumn, std::string>>;

  void act(const Press& press);
  bool takes_text(const std::string& key);
  bool takes_digit(const std::string& key);
  bool takes_choice(const std::string& key);
  bool settles_number();
  void command(Command command, const Press& press);

  void next(const Press& press);
  bool finish();
  void keep_time(const Press& press);
  void start_new(const Press& press);
  void open_row(std::size_t place);
  void open_waiting();
  void open_numbered();
  bool may_leave();
  void drop();
  void erase();
  void turn_to(Question question);
  void step_back();
  void skip();
  void again();
  void end_here(const Press& press);
  void next_quarter();
  void undo(std::vector<Moment>& from, std::vector<Moment>& to);

  bool set(const Answers& answers);
  Values values_of(const OpenRow& open) const;
  std::string value_of(const OpenRow& open, ChartColumn column) const;
  std::string proposal(const OpenRow& open, ChartColumn column) const;
  std::optional<DriveState> place_of(const OpenRow& open) const;
  const Snap* before(const OpenRow& open) const;
  bool is_same_game(const OpenRow& open) const;
  std::optional<FamilyKind> family_kind(const OpenRow& open) const;
  std::vector<Question> questions(const OpenRow& open) const;
  std::optional<Question> first_open(const OpenRow& open) const;
  bool is_asked_of(const OpenRow& open, ChartColumn column) const;
  bool is_answered(const OpenRow& open, const Question& question) const;
  bool is_untouched(const OpenRow& open) const;
  Mark mark_of(const OpenRow& open) const;

  void remember();
  void change_row(RowChange change);
  void apply(const RowChange& change);
  void set_waiting(std::vector<Mark> waiting);
  void refuse(std::string fault) { fault_ = std::move(fault); }

  ChartRows rows_;
  KeyMap keys_;
  std::vector<Mark> waiting_;
  std::optional<OpenRow> open_;
  bool asks_row_ = false;
  std::string row_number_;
  std::vector<Moment> done_, undone_;
  std::size_t revision_ = 0, drives_ended_ = 0;
  std::string fault_, told_;
  std::optional<FilmPlace> film_;
};

}  // namespace callfit::charting
