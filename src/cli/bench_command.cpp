#include "cli/console.hpp"
#include "cli/inputs.hpp"

#include <callfit/base/random.hpp>
#include <callfit/drive/signature.hpp>
#include <callfit/profile/player.hpp>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <iostream>

namespace callfit::cli {
namespace {

Options bench_options() {
  Options options(
      {"bench [--setting NAME|FILE] [--sample N]",
       "Plays a fixed piece of work, the setting's average quarterback in its average scheme, and "
       "prints its signature: two numbers that change only when results change. The first comes "
       "from drives drawn at random, the second from the exact values rounded to 1e-9.",
       "  callfit bench"});
  options.with_json();
  add_setting_options(options);
  options.add()("sample", po::value<std::uint64_t>()->default_value(1'000'000)->value_name("N"),
                "drives to play at random")(
      "seed", po::value<std::uint64_t>()->default_value(default_seed)->value_name("N"),
      "seed of the random drives")("threads",
                                   po::value<std::uint64_t>()->default_value(0)->value_name("N"),
                                   "threads, 0: one a core; changes nothing but the time");
  return options;
}

}  // namespace

int bench_command(const Words& words) {
  Files disk;
  const auto values = bench_options().parse(words, disk);
  if (!values) return exit_ok;
  const Setting setting = load_setting(disk, text_of(*values, "setting"));
  const Scheme average = load_average_scheme(disk, setting);
  const Matchup matchup = make_matchup(setting, average, average, drive_options_of(*values));
  const SampleOptions options{seed_of(*values), (*values)["sample"].as<std::uint64_t>(),
                              threads_of(*values)};
  const DriveSignature signature =
      signature_of(compile_drives(matchup, average_player(setting)), matchup.starts, options);
  const std::string sampled = fmt::format("{:016x}", signature.sampled);
  const std::string exact = fmt::format("{:016x}", signature.exact);
  if (wants_json(*values))
    print_json("bench",
               {{"setting", setting.id}, {"seed", options.seed}, {"drives", options.drives}},
               {{"sampled", sampled}, {"exact", exact}});
  else
    std::cout << "sampled " << sampled << "\nexact   " << exact << '\n';
  return exit_ok;
}

}  // namespace callfit::cli
