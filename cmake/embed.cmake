# Files of a folder as a C++ source of a layer: cmake -DFOLDER=page -DFILES=a;b -DLAYER=desk -DOUTPUT=x.cpp -P embed.cmake
cmake_minimum_required(VERSION 3.25)
set(arrays "")
set(entries "")
set(count 0)
foreach(file ${FILES})
  file(READ "${FOLDER}/${file}" hex HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "'\\\\x\\1'," bytes "${hex}")
  string(REGEX REPLACE "(('[^']*',){24})" "\\1\n    " bytes "${bytes}")
  string(APPEND arrays "constexpr char file_${count}[] = {\n    ${bytes}};\n")
  set(path "/${file}")
  if(file STREQUAL "index.html")
    set(path "/")
  endif()
  string(APPEND entries "    EmbeddedFile{\"${path}\", {file_${count}, sizeof file_${count}}},\n")
  math(EXPR count "${count} + 1")
endforeach()
file(WRITE "${OUTPUT}" "// Made by cmake/embed.cmake from the files of the page.
#include <${LAYER}/page_files.hpp>

#include <array>

namespace callfit::${LAYER} {
namespace {

${arrays}
constexpr std::array files{
${entries}};

}  // namespace

std::span<const EmbeddedFile> page_files() { return files; }

}  // namespace callfit::${LAYER}
")
