#include <callfit/page/page.hpp>

#include <format/part.hpp>
#include <page/digest.hpp>

#include <nlohmann/json.hpp>

#include <filesystem>

namespace callfit::page {
namespace {

namespace fs = std::filesystem;

constexpr auto manifest_name = "callfit-engine.json";
constexpr auto how_to_get =
    "build it with scripts/page-engine (Debian's emscripten), or name its folder: "
    "--engine FOLDER";
constexpr Texts digest_rule{64, 64, "a SHA-256 in 64 hexadecimal digits"};
// No folder: a name alone.
constexpr Texts file_rule{1, 200, "the name of a file beside it", [](std::string_view text) {
                            return text.find('/') == std::string_view::npos;
                          }};

struct NamedFile {
  std::string file, digest;
};

struct Manifest {
  NamedFile glue, module;
  std::string version, commit;
};

NamedFile file_from(Fields& fields) {
  return {fields.text("file", file_rule), fields.text("sha256", digest_rule)};
}

Manifest parse_manifest(const std::string& text, const std::string& source) {
  return read_document(parse_json(text, source), "callfit-engine", source, [](Fields& fields) {
    const auto file = [&fields](const char* key) {
      return fields.object(key, R"({"file": "...", "sha256": "..."})", file_from);
    };
    Manifest manifest{file("glue"), file("module"), "", ""};
    manifest.version = fields.text("version", some_text);
    manifest.commit = fields.text("commit");
    return manifest;
  });
}

std::string checked(Files& disk, const fs::path& folder, const NamedFile& named) {
  const std::string path = (folder / named.file).string();
  std::string bytes = disk.read(path);
  if (sha256_hex(bytes) != named.digest)
    throw InputError(Finding{{path, 0, ""},
                             "is not the file that " + std::string(manifest_name) + " names",
                             how_to_get});
  return bytes;
}

}  // namespace

Engine read_engine(Files& disk, const std::string& folder, const std::string& version) {
  const fs::path manifest_file = fs::path(folder) / manifest_name;
  std::error_code failed;
  if (!fs::is_regular_file(manifest_file, failed))
    throw InputError(Finding{{folder, 0, ""}, "holds no engine for pages", how_to_get});
  const std::string source = manifest_file.string();
  const Manifest manifest = parse_manifest(disk.read(source), source);
  if (manifest.version != version)
    throw InputError(
        Finding{{source, 0, "/version"},
                "is an engine of version " + manifest.version + ", the program is of " + version,
                "build it anew with scripts/page-engine"});
  return {checked(disk, folder, manifest.glue), checked(disk, folder, manifest.module),
          manifest.module.digest, manifest.version, manifest.commit};
}

}  // namespace callfit::page
