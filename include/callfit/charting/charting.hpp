// A chart being typed beside a tape, as a value: keys go in, rows come of it. It opens no file and
// plays no film.
#pragma once

#include <callfit/charting/chart_rows.hpp>
#include <callfit/charting/disputes.hpp>
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

/// What is kept beside a chart: no row of it yet, or no more.
struct KeptBeside {
  std::vector<Mark> waiting = {};
  std::vector<Upheld> upheld = {};
};

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
  Charting(ChartRows rows, KeyMap keys, KeptBeside beside = {});

  /// Does what the key means. What it may not do is said by fault() and changes nothing.
  void press(const Press& press);

  /// Columns for film where the chart has none (clip, start, end), blank in every row.
  void add_film_columns();

  /// Other values for a row that is there, as one change. Refused (fault()) where a row is being
  /// typed, and what the reader refuses.
  void amend(std::size_t row, const Answers& values);
  /// A value of this chart stands though another chart has another one.
  void uphold(Upheld one);
  /// From here on nothing before can be taken back.
  void forget_history();
  /// Takes the last change back without a way forward to it, for whoever could not write it down.
  void take_back();

  const ChartRows& rows() const { return rows_; }
  const std::vector<Mark>& waiting() const { return waiting_; }
  const std::vector<Upheld>& upheld() const { return upheld_; }
  const std::optional<OpenRow>& open() const { return open_; }
  /// Whether the open row holds more than its time or, of one that was there, anything new.
  bool is_being_typed() const { return open_ && !is_untouched(*open_); }
  const KeyMap& keys() const { return keys_; }
  /// Grows with every change of rows, of waiting marks and of what is upheld.
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
    std::optional<std::vector<Upheld>> upheld;
  };

  void forget_last_key();
  void takes_row_number(const std::string& key);
  bool takes_text(const std::string& key);
  bool takes_digit(const std::string& key);
  bool takes_choice(const std::string& key);
  bool settles_number();
  void command(Command command, const Press& press);
  void column_command(Command command);
  void row_command(Command command);

  void next(const Press& press);
  void mark_next(const Press& press);
  void done();
  bool finish();
  void refuse_unfinished(const Finding& first);
  bool is_end_of_drive(std::size_t place, const Snap& snap) const;
  void keep_time(const Press& press);
  void start_new(const Press& press);
  void open_row(std::size_t place);
  void open_row_before();
  void open_row_after();
  void ask_row();
  void insert();
  void let_wait();
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
  void set_upheld(std::vector<Upheld> upheld);
  void refuse(std::string fault) { fault_ = std::move(fault); }

  ChartRows rows_;
  KeyMap keys_;
  std::vector<Mark> waiting_;
  std::vector<Upheld> upheld_;
  std::optional<OpenRow> open_;
  bool asks_row_ = false;
  std::string row_number_;
  std::vector<Moment> done_, undone_;
  std::size_t revision_ = 0, drives_ended_ = 0;
  std::string fault_, told_;
  std::optional<FilmPlace> film_;
};

}  // namespace callfit::charting
