// What the tape says so far, worked out on a thread of its own, so that keys never wait for it.
#pragma once

#include <callfit/ask/case.hpp>

#include <cstddef>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

namespace callfit::desk {

struct SaidSoFar {
  std::size_t version = 0;  ///< of the chart that it rests on
  std::string verdict, next;
  std::string fault;  ///< why nothing can be said
};

class SoFar {
 public:
  /// `read` gives the case with the chart as it is on the disk; `chart` tells whose it is.
  SoFar(std::function<Case()> read, std::string chart);
  ~SoFar();
  SoFar(const SoFar&) = delete;
  SoFar& operator=(const SoFar&) = delete;

  /// The latest that is known; begins anew where it rests on another version and nothing is worked
  /// out at present.
  std::optional<SaidSoFar> of(std::size_t version);
  bool is_working();

 private:
  SaidSoFar worked_out(std::size_t version) const;

  std::function<Case()> read_;
  std::string chart_;
  std::mutex mutex_;
  std::optional<SaidSoFar> said_;
  bool is_working_ = false;
  std::thread thread_;
};

}  // namespace callfit::desk
