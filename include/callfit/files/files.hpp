// Everything that is read from a file and written to one, by path.
#pragma once

#include <callfit/base/finding.hpp>
#include <callfit/format/beside.hpp>
#include <callfit/format/chart.hpp>
#include <callfit/format/kept.hpp>
#include <callfit/format/scenario.hpp>
#include <callfit/graphic/dress.hpp>
#include <callfit/profile/profile.hpp>
#include <callfit/scheme/scheme.hpp>
#include <callfit/setting/setting.hpp>
#include <callfit/validate/quarterbacks.hpp>
#include <callfit/validate/real_drives.hpp>
#include <callfit/validate/season_points.hpp>

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit {

/// A longer file, packed or not, is refused: bytes.
inline constexpr std::size_t longest_file = std::size_t{128} << 20U;

/// The files of one command. It keeps in mind which it has read and which it is to write, and
/// refuses to do both with one and the same file, whatever its names: another spelling of the path,
/// a symbolic or a hard link. Every function throws InputError for what is wrong with a file or in
/// it; those that read a format throw what its parse function in `format` does.
class Files {
 public:
  /// From now on any file may be replaced by an output, not only one that callfit wrote.
  void replace_all() { replaces_all_ = true; }
  /// Refuses a file that was read and one named here before; one named here is refused when it is
  /// read later. Commands name what they will write before they read.
  void will_write(const std::string& path);
  /// Writes the bytes, with the mark by which they are known again, under a temporary name beside
  /// `path` and renames, so that a reader sees the whole file or none. Symbolic links are followed,
  /// permissions kept. Throws when the folder is missing or cannot be written, and, before anything
  /// is written, where any named output is there but not as callfit wrote it (docs/formats.md).
  void write(const std::string& path, std::string_view bytes);

  /// The same of what others write: `make` is given a fresh folder beside `path`, which is gone
  /// afterwards, and returns the file in it that goes to `path`, without a mark.
  void write_by(const std::string& path,
                const std::function<std::string(const std::string& folder)>& make);

  /// Finds what a document names beside it.
  Beside beside();

  /// The bytes of a file. Throws when it is missing, a folder or unreadable.
  std::string read(const std::string& path);
  /// The value of the top-level "format" key of a JSON file.
  std::string format(const std::string& path);

  /// The text of a chart: of a workbook (.xlsx, .ods, .fods) the first sheet as CSV, of which
  /// `notices` tell if there are several. Throws for other workbooks.
  std::string chart_text(const std::string& path, Findings& notices);
  Chart chart(const std::string& path, Findings& notices, const ChartWords& words = {});
  std::vector<Family> families(const std::string& path);
  /// A list of families is looked for beside the scheme, a setting's base beside the setting.
  Scheme scheme(const std::string& path);
  Setting setting(const std::string& path);
  Profile profile(const std::string& path, const Setting& setting);
  Scenario scenario(const std::string& path);
  KeptAnswer kept(const std::string& path);
  Observed observed(const std::string& path);
  /// A table of real drives, plain or gzip.
  std::vector<RealDrive> drives(const std::string& path);
  /// A table of what quarterbacks did, a row a game, plain or gzip.
  std::vector<QuarterbackGame> quarterback_games(const std::string& path);
  /// And of the drives that they led, a row a season.
  std::vector<QuarterbackSeason> quarterback_seasons(const std::string& path);
  Dress with_style(Dress dress, const std::string& path);

 private:
  void will_read(const std::string& path);
  void check_own(const std::string& path) const;
  void check_outputs(const std::string& path);

  std::vector<std::string> read_;
  std::vector<std::string> written_;
  std::vector<std::string> unchecked_;  // of these, where something may be lost yet
  bool replaces_all_ = false;
};

}  // namespace callfit
