# Writes the JSON Schemas into one C++ file, so that the program finds them wherever it is.
# Call: cmake -DOUTPUT=file.cpp "-DSCHEMAS=a.schema.json;b.schema.json" -P embed_schemas.cmake
cmake_minimum_required(VERSION 3.25)
set(entries "")
foreach(schema ${SCHEMAS})
  get_filename_component(name ${schema} NAME)
  string(REPLACE ".schema.json" "" name ${name})
  file(READ ${schema} text)
  string(APPEND entries "    {\"${name}\", R\"schema(${text})schema\"},\n")
endforeach()
file(WRITE ${OUTPUT} "// Made from docs/formats/*.schema.json by cmake/embed_schemas.cmake.
#include <io/schema_text.hpp>

#include <utility>

namespace callfit {
namespace {

constexpr std::pair<std::string_view, std::string_view> schemas[] = {
${entries}};

}  // namespace

std::string_view schema_text(std::string_view name) {
  for (const auto& [known, text] : schemas)
    if (known == name) return text;
  return {};
}

}  // namespace callfit
")
