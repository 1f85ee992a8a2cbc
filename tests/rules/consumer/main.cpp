// A program outside the project that uses the installed library: reads the shipped data in the
// folder that it is given, asks how a charted quarterback fits a scheme, and draws the answer.
#include <callfit/ask/study.hpp>
#include <callfit/draw/svg.hpp>
#include <callfit/files/files.hpp>
#include <callfit/format/case.hpp>
#include <callfit/graphic/pictures.hpp>
#include <callfit/profile/profile.hpp>

#include <exception>
#include <iostream>

namespace {

callfit::Case shipped_case(const std::string& data) {
  callfit::Files disk;
  callfit::Findings notices;
  callfit::Case about;
  about.setting = disk.setting(data + "/settings/college.json");
  about.average_scheme = disk.scheme(data + "/schemes/college-average.json");
  about.schemes = {disk.scheme(data + "/schemes/balanced.json")};
  const auto chart = disk.chart(data + "/profiles/demo/last-starter.csv", notices,
                                callfit::words_of(about.setting, {}));
  about.quarterbacks = {{callfit::build_profile("Last starter", {chart}, about.setting,
                                                callfit::weighting_of(about.setting)),
                         nullptr, 0}};
  about.options.draws = callfit::fewest_draws;
  return about;
}

}  // namespace

int main(int count, char** values) {
  if (count != 2) return 2;
  try {
    callfit::Study study(shipped_case(values[1]));
    const auto fit = std::get<callfit::FitAnswer>(study.answer(callfit::FitRequest{}));
    const std::string picture =
        callfit::to_svg(callfit::figure(callfit::fit_panel(fit, {}, {}), {}));
    std::cout << "place " << fit.place.low << " to " << fit.place.high << ", picture of "
              << picture.size() << " bytes\n";
    const bool fine = fit.place.low >= 0 && fit.place.low < fit.place.high &&
                      fit.place.high <= 100 && picture.starts_with("<svg");
    return fine ? 0 : 1;
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
}
