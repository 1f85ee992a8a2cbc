#include <callfit/base/finding.hpp>
#include <callfit/film/cuts.hpp>
#include <callfit/report/door.hpp>
#include <desk/film.hpp>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;

class OpenFilm {
 public:
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
  explicit OpenFilm(const std::string& path)
      : handle_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {
    struct stat about = {};
    if (handle_ < 0 || ::fstat(handle_, &about) != 0) return;
    is_file_ = S_ISREG(about.st_mode);
    size_ = static_cast<std::uint64_t>(about.st_size);
  }
  ~OpenFilm() {
    if (handle_ >= 0) ::close(handle_);
  }
  OpenFilm(const OpenFilm&) = delete;
  OpenFilm& operator=(const OpenFilm&) = delete;

  bool is_file() const { return is_file_; }
  std::uint64_t size() const { return size_; }

  // Fewer bytes where the file was shortened meanwhile.
  std::string read(std::uint64_t from, std::uint64_t count) const {
    std::string bytes(count, '\0');
    std::size_t have = 0;
    while (have < bytes.size()) {
      const ssize_t got = ::pread(handle_, bytes.data() + have, bytes.size() - have,
                                  static_cast<off_t>(from + have));
      if (got <= 0) break;
      have += static_cast<std::size_t>(got);
    }
    bytes.resize(have);
    return bytes;
  }

 private:
  int handle_ = -1;
  bool is_file_ = false;
  std::uint64_t size_ = 0;
};

/// What a file is by its first bytes (the formats' own specifications, from memory).
struct FilmKind {
  std::string_view name;
  std::string_view type;  ///< empty where browsers do not play it
};

std::optional<FilmKind> kind_of_film(std::string_view head) {
  constexpr std::string_view ebml = "\x1A\x45\xDF\xA3";
  constexpr std::string_view program_stream{"\0\0\x01\xBA", 4};
  constexpr std::string_view asf = "\x30\x26\xB2\x75";
  constexpr std::size_t packet = 188;
  const std::string_view box = head.size() >= 8 ? head.substr(4, 4) : std::string_view();
  if (box == "ftyp" || box == "moov" || box == "mdat" || box == "wide")
    return FilmKind{"MP4", "video/mp4"};
  if (head.starts_with(ebml))
    return head.substr(0, 64).find("webm") != std::string_view::npos
               ? FilmKind{"WebM", "video/webm"}
               : FilmKind{"Matroska", "video/x-matroska"};
  if (head.starts_with("OggS")) return FilmKind{"Ogg", "video/ogg"};
  if (head.starts_with("RIFF") && head.size() >= 12 && head.substr(8, 4) == "AVI ")
    return FilmKind{"AVI", ""};
  if (head.starts_with(program_stream)) return FilmKind{"MPEG program stream", ""};
  if (head.starts_with(asf)) return FilmKind{"Windows Media", ""};
  if (head.starts_with("FLV")) return FilmKind{"Flash", ""};
  if (head.size() > packet && head[0] == 'G' && head[packet] == 'G')
    return FilmKind{"MPEG transport stream", ""};
  return std::nullopt;
}

constexpr std::uint64_t head_size = 192;

std::string fault_in(const std::string& path, const std::string& head) {
  const auto kind = kind_of_film(head);
  if (!kind) return "is no film; name one such as an .mp4 or .webm";
  if (!kind->type.empty()) return {};
  return "is " + std::string(kind->name) + ", which browsers do not play; " + way_to_play(path);
}

// A chart may come from anybody: what it names elsewhere, through links too, is not given out.
bool lies_in(const fs::path& folder, const std::string& path) {
  std::error_code failed;
  const fs::path relative =
      fs::weakly_canonical(path, failed).lexically_relative(fs::weakly_canonical(folder, failed));
  return !failed && !relative.empty() && *relative.begin() != "..";
}

std::optional<std::uint64_t> count_in(std::string_view text) {
  std::uint64_t value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace

Reply refused_film(int status, const std::string& name, const std::string& what) {
  return {status, "application/json", error_document(InputError(Finding{{"", 0, name}, what, ""}))};
}

std::optional<ByteRange> range_in(std::string_view header, std::uint64_t size) {
  constexpr std::string_view unit = "bytes=";
  if (!header.starts_with(unit) || size == 0) return std::nullopt;
  header.remove_prefix(unit.size());
  const std::size_t hyphen = header.find('-');
  if (hyphen == std::string_view::npos) return std::nullopt;
  const std::string_view from = header.substr(0, hyphen), to = header.substr(hyphen + 1);
  if (from.empty()) {  // so many at the end
    const auto count = count_in(to);
    if (!count || *count == 0) return std::nullopt;
    return ByteRange{size - std::min(*count, size), size - 1};
  }
  const auto first = count_in(from);
  const auto last = to.empty() ? std::optional(size - 1) : count_in(to);
  if (!first || !last || *first >= size || *last < *first) return std::nullopt;
  return ByteRange{*first, std::min(*last, size - 1)};
}

Reply part_of_film(const Film& film, const Call& call) {
  const OpenFilm file(film.path);
  if (!file.is_file()) return refused_film(404, film.name, "the film is not there any more");
  const std::string head = file.read(0, head_size);
  if (const std::string fault = fault_in(film.path, head); !fault.empty())
    return refused_film(415, film.name, fault);
  const std::string size = std::to_string(file.size());
  const auto outside = [&](const std::string& what) {
    Reply reply = refused_film(416, film.name, what);
    reply.headers = {{"Content-Range", "bytes */" + size}, {"Accept-Ranges", "bytes"}};
    return reply;
  };
  if (call.count("Range") != 1)
    return outside("film is given out in ranges of bytes, one at a time");
  const auto range = range_in(call.header("Range"), file.size());
  if (!range) return outside("there is no such range in " + size + " bytes");
  std::string bytes =
      file.read(range->first, std::min(range->last - range->first + 1, most_bytes_of_film));
  if (bytes.empty()) return outside("the film was shortened");
  const std::string last = std::to_string(range->first + bytes.size() - 1);
  return {206,
          std::string(kind_of_film(head)->type),
          std::move(bytes),
          {{"Content-Range", "bytes " + std::to_string(range->first) + '-' + last + '/' + size},
           {"Accept-Ranges", "bytes"}}};
}

std::string film_fault(const std::string& path) {
  const OpenFilm file(path);
  if (!file.is_file()) return "there is no such file; check the name and the folder";
  return fault_in(path, file.read(0, head_size));
}

std::string way_to_play(const std::string& path) {
  const std::string mp4 = fs::path(path).stem().string() + "-for-browsers.mp4";
  return "`ffmpeg -i " + shell_word("file:" + fs::path(path).filename().string()) +
         " -c:v libx264 -pix_fmt yuv420p -c:a aac -movflags +faststart " +
         shell_word("file:" + mp4) + "` makes one that they play";
}

std::vector<Film> films_named(const std::vector<std::string>& clips, const std::string& chart) {
  const fs::path home = fs::absolute(chart).parent_path();
  std::vector<Film> films;
  for (const std::string& clip : clips) {
    const bool is_known = std::any_of(films.begin(), films.end(),
                                      [&clip](const Film& film) { return film.name == clip; });
    const std::string path = (home / clip).string();
    if (!clip.empty() && !is_known && lies_in(home, path) && film_fault(path).empty())
      films.push_back({clip, path});
  }
  return films;
}

}  // namespace callfit::desk
