// Film that lies beside a chart, given out in ranges of bytes.
#pragma once

#include <callfit/desk/http.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace callfit::desk {

/// A film that may be asked for: `name` is its name in charts.
struct Film {
  std::string name, path;
};

/// "first-last" of a Range header for a file of so many bytes, both ends included. nullopt for
/// what is no single range of bytes, and for one that begins beyond the end.
struct ByteRange {
  std::uint64_t first = 0, last = 0;
};
std::optional<ByteRange> range_in(std::string_view header, std::uint64_t size);

/// A reply holds this many bytes at most; players ask for the next ones themselves.
inline constexpr std::uint64_t most_bytes_of_film = std::uint64_t{2} << 20U;

/// The film's part that the call's Range header asks for. The file is opened anew each time, so
/// that one that was shortened, replaced or taken away is told as it is now.
Reply part_of_film(const Film& film, const Call& call);

/// That a film is not given out, as callfit-error/1.
Reply refused_film(int status, const std::string& name, const std::string& what);

/// Why a browser cannot play the file, and what would do; empty where it may.
std::string film_fault(const std::string& path);

/// A command line that makes of the file one that browsers play.
std::string way_to_play(const std::string& path);

/// The films that a chart names in its column clip and that lie in its folder, without repeats.
std::vector<Film> films_named(const std::vector<std::string>& clips, const std::string& chart);

}  // namespace callfit::desk
