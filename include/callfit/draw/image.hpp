// Pictures that a drawing takes in.
#pragma once

#include <cstddef>
#include <string>

namespace callfit {

inline constexpr std::size_t longest_image = std::size_t{4} << 20U;  ///< bytes
inline constexpr int widest_image = 4096;                            ///< pixels, either way

/// "image/png" or "image/svg+xml": the media type of bytes that can be drawn. Bytes and pixels are
/// looked at before anything is decoded, and an SVG may not hold pictures or entities, which hide
/// how large they are. Throws std::invalid_argument that says what is wrong.
std::string image_type(const std::string& bytes);

}  // namespace callfit
