// Linked with the whole core and nothing above it: what the core calls, it has.
#include <callfit/chart/rate.hpp>

int main() {
  callfit::Snap snap;
  snap.result = callfit::Result::complete;
  return callfit::trial(snap, callfit::Rate::completion, {}).value_or(false) ? 0 : 1;
}
