#include <callfit/base/finding.hpp>
#include <callfit/film/reel.hpp>
#include <callfit/report/film_lists.hpp>
#include <callfit/report/number_text.hpp>
#include <callfit/report/snaps_text.hpp>

#include "report/snap_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace callfit {
namespace {

constexpr std::size_t result_count = enum_words<Result>.size();
using Tally = std::array<std::size_t, result_count>;

std::vector<std::size_t> timed_rows(const SnapsAnswer& answer) {
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < answer.rows.size(); ++i) {
    const SnapRow& row = answer.rows[i];
    if (row.counts && row.snap.start && row.snap.end && *row.snap.end > *row.snap.start)
      rows.push_back(i);
  }
  if (rows.empty())
    refuse_at("", "no snap behind " + answer.number.label + " carries times of film",
              "give start and end in the chart (docs/chart.md)");
  return rows;
}

Tally tally_of(const SnapsAnswer& answer, const std::vector<std::size_t>& rows) {
  Tally tally{};
  for (const std::size_t i : rows) ++tally[static_cast<std::size_t>(answer.rows[i].snap.result)];
  return tally;
}

std::vector<std::size_t> chosen(const SnapsAnswer& answer, const std::vector<std::size_t>& rows,
                                double minutes, std::uint64_t seed) {
  std::vector<FilmedSnap> snaps;
  for (const std::size_t i : rows) {
    const Snap& snap = answer.rows[i].snap;
    snaps.push_back(
        {static_cast<std::size_t>(snap.result), double{*snap.end} - double{*snap.start}});
  }
  std::vector<std::size_t> reel;
  for (const std::size_t place : honest_reel(snaps, 60 * minutes, seed))
    reel.push_back(rows[place]);
  if (reel.empty())
    refuse_at("", fmt::format("not one snap fits into {:g} minutes", minutes), "give more");
  return reel;
}

// "8 of 20 complete, as 24 of all 61; ..."
std::string shares_text(const Tally& shown, const Tally& all, std::size_t count,
                        std::size_t total) {
  std::string text;
  for (std::size_t r = 0; r < result_count; ++r) {
    if (all[r] == 0) continue;
    text += fmt::format("{}{} of {} {}, as {} of all {}", text.empty() ? "" : "; ", shown[r], count,
                        plain(enum_words<Result>[r]), all[r], total);
  }
  return text;
}

std::string missing_text(const SnapsAnswer& answer, std::size_t timed) {
  const auto counted = static_cast<std::size_t>(std::count_if(
      answer.rows.begin(), answer.rows.end(), [](const SnapRow& row) { return row.counts; }));
  return timed == counted ? "" : fmt::format(" {} more carry no times.", counted - timed);
}

}  // namespace

FilmOf film_of(const SnapsAnswer& answer, std::optional<double> minutes, std::uint64_t seed) {
  const std::vector<std::size_t> timed = timed_rows(answer);
  FilmOf film{timed, fmt::format("Film of all {} snaps with times behind {}.", timed.size(),
                                 answer.number.label)};
  if (minutes) {
    film.rows = chosen(answer, timed, *minutes, seed);
    film.sentence = fmt::format(
        "{} of the {} snaps with times behind {}, chosen by chance, each result as often as "
        "charted: "
        "{}.",
        film.rows.size(), timed.size(), answer.number.label,
        shares_text(tally_of(answer, film.rows), tally_of(answer, timed), film.rows.size(),
                    timed.size()));
  }
  film.sentence += missing_text(answer, timed.size());
  return film;
}

std::vector<Cut> cuts_of(const SnapsAnswer& answer, const FilmOf& film) {
  std::vector<Cut> cuts;
  for (const std::size_t i : film.rows) {
    const SnapRow& row = answer.rows[i];
    cuts.push_back({row.snap.clip.empty() ? row.chart : row.snap.clip.str(), *row.snap.start,
                    *row.snap.end,
                    fmt::format("{}, {} ({}). {}", snap_down_text(row), snap_result_text(row.snap),
                                row.family, snaps_head(answer))});
  }
  return cuts;
}

}  // namespace callfit
