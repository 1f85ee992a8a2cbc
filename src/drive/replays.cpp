#include <drive/replays.hpp>

namespace callfit::drive {

// Without pivoting: penalties are rare, so the diagonal dominates.
void Replays::factorise(Matrix& matrix, int last) {
  for (int pivot = 1; pivot <= last; ++pivot)
    for (int row = pivot + 1; row <= last; ++row) {
      double& factor = at(matrix, row, pivot);
      if (factor == 0) continue;
      factor /= at(matrix, pivot, pivot);
      for (int column = pivot + 1; column <= last; ++column)
        at(matrix, row, column) -= factor * at(matrix, pivot, column);
    }
  for (int row = 1; row <= last; ++row) {
    const auto i = static_cast<std::size_t>(row);
    over_pivot_[i] = 1 / at(matrix, row, row);
    for (int column = 1; column <= last; ++column) {
      const double factor = at(matrix, row, column);
      if (factor != 0 && column != row)
        (column < row ? lower_ : upper_).push_back({column, factor});
    }
    lower_start_[i + 1] = static_cast<std::uint32_t>(lower_.size());
    upper_start_[i + 1] = static_cast<std::uint32_t>(upper_.size());
  }
}

}  // namespace callfit::drive
