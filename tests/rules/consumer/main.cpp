// A program outside the project that uses the installed library.
#include <callfit/base/random.hpp>
#include <callfit/chart/rate.hpp>
#include <callfit/draw/svg.hpp>

int main() {
  callfit::Snap snap;
  snap.result = callfit::Result::complete;
  callfit::Stream stream(callfit::default_seed, callfit::Purpose::sampling, 0);
  const bool fine = callfit::trial(snap, callfit::Rate::completion, {}).value_or(false) &&
                    stream.uniform() < 1 && callfit::svg_number(1.5) == "1.5";
  return fine ? 0 : 1;
}
