#include <callfit/base/finding.hpp>
#include <callfit/desk/gate.hpp>
#include <callfit/film/playing.hpp>
#include <desk/room_films.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <filesystem>

namespace callfit::desk {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

std::vector<std::string> clips_in(const charting::ChartRows& rows) {
  std::vector<std::string> clips;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (const std::string clip = rows.snap(i).clip.str(); clips.empty() || clips.back() != clip)
      clips.push_back(clip);
  return clips;
}

}  // namespace

RoomFilms::RoomFilms(const Taping& taping, const charting::ChartRows& rows) {
  for (const std::string& path : taping.films) {
    if (const std::string fault = film_fault(path); !fault.empty())
      throw InputError(Finding{{path, 0, ""}, fault, ""});
    films_.push_back({fs::path(path).filename().string(), path});
  }
  for (Film& film : films_named(clips_in(rows), taping.chart))
    if (!place_of(film.name)) films_.push_back(std::move(film));
}

std::string RoomFilms::name(std::size_t place) const {
  return place >= 1 && place <= films_.size() ? films_[place - 1].name : std::string();
}

std::optional<std::size_t> RoomFilms::place_of(const std::string& clip) const {
  const auto film = std::find_if(films_.begin(), films_.end(),
                                 [&clip](const Film& one) { return one.name == clip; });
  if (film == films_.end()) return std::nullopt;
  return static_cast<std::size_t>(film - films_.begin()) + 1;
}

Json RoomFilms::json() const {
  Json list = Json::array();
  for (std::size_t i = 0; i < films_.size(); ++i)
    list.push_back({{"name", films_[i].name},
                    {"target", std::string(film_target) + std::to_string(i + 1) + '/'},
                    {"fault", "This browser cannot play " + films_[i].name +
                                  ". Charting goes on without; " + way_to_play(films_[i].path)}});
  return list;
}

Json RoomFilms::json(const std::optional<charting::FilmPlace>& stretch) const {
  const auto film = stretch ? place_of(stretch->clip) : std::nullopt;
  if (!film) return nullptr;
  return {{"film", *film},
          {"start", stretch->start},
          {"end", shown_until(stretch->start, stretch->end)}};
}

Reply RoomFilms::part(const Call& call) const {
  const std::string_view rest = std::string_view(call.target).substr(film_target.size());
  std::size_t place = 0;
  const auto [end, failed] = std::from_chars(rest.data(), rest.data() + rest.size(), place);
  const bool is_place = failed == std::errc() && end != rest.data() + rest.size() && *end == '/';
  if (!is_place || place < 1 || place > films_.size())
    return refused_film(404, "", "there is no such film");
  return part_of_film(films_[place - 1], call);
}

Json playing_json() {
  return {{"speeds", film_speeds},
          {"jump", film_jump},
          {"shuttle_back", film_shuttle_back},
          {"frame", film_frame}};
}

}  // namespace callfit::desk
