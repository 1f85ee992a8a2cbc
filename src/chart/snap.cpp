#include <callfit/chart/snap.hpp>

namespace callfit {

bool is_throw(Result result) {
  return result == Result::complete || result == Result::incomplete ||
         result == Result::intercepted;
}

bool is_dropback(Result result) {
  return is_throw(result) || result == Result::sack || result == Result::scramble;
}

bool is_touch(Result result) {
  return result == Result::complete || result == Result::scramble || result == Result::run;
}

}  // namespace callfit
