// Writes the chain of the first quality class as plain arrays for other programs: 32-bit integers
// row.i32, column.i32, order.i32 (states from the goal out), first.i32 (the state of first and ten
// at each yards_to_goal) and doubles probability.f64, starts.f64 (shares by yards_to_goal, size
// 100), reward.f64 (points, net points and plays of a step, by state) and values.f64 (points and
// net of each first and ten, as the exact engine has them).
#include "chain.hpp"
#include "workload.hpp"

#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>

using namespace callfit;

namespace {

template <class T>
void write(const std::filesystem::path& file, const std::vector<T>& values) {
  std::ofstream out(file, std::ios::binary);
  for (const T value : values) out.write(reinterpret_cast<const char*>(&value), sizeof value);
  if (!out.flush()) throw std::runtime_error("cannot write " + file.string());
}

void write_matrix(const std::filesystem::path& folder, const Eigen::SparseMatrix<double>& q) {
  std::vector<std::int32_t> row, column;
  std::vector<double> probability;
  for (int outer = 0; outer < q.outerSize(); ++outer)
    for (Eigen::SparseMatrix<double>::InnerIterator entry(q, outer); entry; ++entry) {
      row.push_back(static_cast<std::int32_t>(entry.row()));
      column.push_back(static_cast<std::int32_t>(entry.col()));
      probability.push_back(entry.value());
    }
  write(folder / "row.i32", row);
  write(folder / "column.i32", column);
  write(folder / "probability.f64", probability);
}

/// Every state, by the line to gain from the goal out, then from fourth down to first: few steps
/// lead backward in this order.
std::vector<std::int32_t> goal_first() {
  std::vector<std::int32_t> order;
  for (int line = 0; line <= 98; ++line)
    for (int down = 4; down >= 1; --down)
      for (int y = line + 1; y <= 99; ++y)
        order.push_back(static_cast<std::int32_t>(drive::state_index({down, y - line, y})));
  return order;
}

void export_chain(const std::filesystem::path& folder) {
  const Workload work;
  const drive::Table& table = work.model.table();
  const chain::Chain chain = chain::list_outcomes(table, 0, drive::table_policy(*table.plan));
  std::filesystem::create_directories(folder);
  write_matrix(folder, chain.q);
  write(folder / "order.i32", goal_first());

  std::vector<double> reward;
  for (Eigen::Index i = 0; i < chain.r.rows(); ++i)
    for (const std::size_t column : {std::size_t{0}, drive::net_index, drive::plays_index})
      reward.push_back(chain.r(i, static_cast<Eigen::Index>(column)));
  write(folder / "reward.f64", reward);
  write(folder / "starts.f64", work.starts);

  std::vector<std::int32_t> first(100, 0);
  std::vector<double> values(200, 0.0);
  const drive::ClassPoints solved = drive::solve_class_points(table).front();
  for (std::size_t y = 1; y < first.size(); ++y) {
    first[y] = static_cast<std::int32_t>(drive::state_index(first_down_at(static_cast<int>(y))));
    for (std::size_t c = 0; c < 2; ++c) values[2 * y + c] = solved.first_and_ten[y][c];
  }
  write(folder / "first.i32", first);
  write(folder / "values.f64", values);
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::fprintf(stderr, "usage: callfit_chain FOLDER\n");
    return 2;
  }
  try {
    export_chain(words[1]);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
