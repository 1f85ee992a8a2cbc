// A program outside the project that needs the core alone.
#include <callfit/base/random.hpp>
#include <callfit/stats/beta.hpp>

int main() {
  callfit::Stream stream(callfit::default_seed, callfit::Purpose::sampling, 0);
  return callfit::draw(callfit::Beta{2, 3}, stream) < 1 ? 0 : 1;
}
