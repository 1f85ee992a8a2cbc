// The desk: a page where the analyst turns the weights on the picture. It answers calls; what
// listens for them is in server.hpp.
#pragma once

#include <callfit/ask/case.hpp>
#include <callfit/chart/rate.hpp>
#include <callfit/desk/http.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/glossary.hpp>

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace callfit::desk {

/// A chart that can be typed beside its films.
struct Taping {
  std::string chart;               ///< a CSV file, made where there is none
  std::vector<std::string> films;  ///< files, besides those that the chart names in its column clip
  std::string against;  ///< a chart of the same snaps that this one is charted blind to; or empty
  SuccessRule success;  ///< of the level of play: what agreement counts as one
  std::string keys;     ///< a callfit-keys/1 file; the usual keys where it is not there
  ChartWords words;     ///< that the chart may use
  bool is_first_room = false;       ///< whether the page opens with it
  std::function<Case()> read_case;  ///< the case with the chart as it is on the disk now
};

/// A case as it was read. Without a file tries are kept as long as the desk is open, and pictures
/// go to `folder`.
struct Opened {
  std::optional<Case> about;  ///< nothing where the chart has no snaps yet
  std::string document;       ///< its text
  std::string file;           ///< empty where words made it
  std::string folder;         ///< the only one that is read from and written to
  std::vector<GlossaryEntry> glossary;
  std::optional<Taping> taping = {};
  std::vector<Try> tries = {};  ///< of the file, where there is nothing about it yet
};

/// One case, one analyst, one call at a time. docs/desk.md lists what can be called.
class Desk {
 public:
  /// Throws InputError as Study does, and where another desk has the case open.
  Desk(Opened opened, unsigned threads);
  ~Desk();
  Desk(Desk&&) noexcept;
  Desk& operator=(Desk&&) noexcept;

  /// Whether the target is one of the page's own files, which hold nothing of the case.
  static bool is_page_file(const std::string& target);

  /// Bad input comes back as callfit-error/1 with status 422; nothing is thrown.
  Reply answer(const Call& call);

 private:
  class Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace callfit::desk
