#include <files/archive.hpp>
#include <files/stream.hpp>

#include <zip.h>

#include <algorithm>

namespace callfit {
namespace {

constexpr auto save_again =
    "open it where it was made and save it again, or save it as CSV in UTF-8";

struct CloseFile {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};

/// What zip_error_t says, freed with it.
std::string said(zip_error_t& error) {
  std::string text = zip_error_strerror(&error);
  zip_error_fini(&error);
  return text;
}

}  // namespace

void Archive::Close::operator()(zip* archive) const { zip_discard(archive); }

Archive::Archive(std::string_view bytes, std::string path) : path_(std::move(path)) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source != nullptr) archive_.reset(zip_open_from_source(source, ZIP_RDONLY, &error));
  if (archive_) {
    zip_error_fini(&error);
    return;
  }
  if (source != nullptr) zip_source_free(source);
  refuse_file(path_, "is a damaged workbook: " + said(error), save_again);
}

void refuse_length(const std::string& path) {
  refuse_file(path, "holds more than " + std::to_string(Archive::longest >> 20U) + " MB",
              "save the chart as CSV in UTF-8");
}

bool Archive::holds(const std::string& name) const {
  return zip_name_locate(archive_.get(), name.c_str(), 0) >= 0;
}

std::optional<std::string> Archive::file(const std::string& name) {
  if (!holds(name)) return std::nullopt;
  const std::unique_ptr<zip_file_t, CloseFile> file(zip_fopen(archive_.get(), name.c_str(), 0));
  const auto refuse = [&](const std::string& why) {
    refuse_file(path_, "is a damaged workbook: " + name + ": " + why, save_again);
  };
  if (!file) refuse(zip_strerror(archive_.get()));
  std::string text;
  std::string block(1U << 16U, '\0');
  while (true) {
    const zip_int64_t length = zip_fread(file.get(), block.data(), block.size());
    if (length < 0) refuse(zip_file_strerror(file.get()));
    if (length == 0) return text;
    text.append(block, 0, static_cast<std::size_t>(length));
    unpacked_ += static_cast<std::size_t>(length);
    if (unpacked_ > longest) refuse_length(path_);
  }
}

}  // namespace callfit
