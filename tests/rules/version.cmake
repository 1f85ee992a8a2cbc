# What --version tells is the project's version and the commit, wherever the sources lie.
cmake_minimum_required(VERSION 3.25)
function(run result)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE err
    OUTPUT_STRIP_TRAILING_WHITESPACE)
  if(code)
    list(JOIN ARGN " " words)
    message(FATAL_ERROR "${words}\n${out}${err}")
  endif()
  set(${result} "${out}" PARENT_SCOPE)
endfunction()

run(told ${PROGRAM} --version)
if(NOT told MATCHES "^callfit ${VERSION}( \\([0-9a-f]+( with changes)?\\))?$")
  message(FATAL_ERROR "--version tells ${told}")
endif()

# The sources in `folder` are of the commit `wanted`.
function(expect folder wanted)
  run(ignored ${CMAKE_COMMAND} -DROOT=${folder} -DOUTPUT=${SCRATCH}/commit.hpp -P ${ROOT}/cmake/commit.cmake)
  file(READ ${SCRATCH}/commit.hpp header)
  if(NOT header STREQUAL "#define CALLFIT_COMMIT \"${wanted}\"\n")
    message(FATAL_ERROR "${folder} is of ${wanted}, but the header says ${header}")
  endif()
endfunction()

file(REMOVE_RECURSE ${SCRATCH})
set(copy ${SCRATCH}/copy)
file(COPY ${ROOT}/cmake/commit.txt DESTINATION ${copy}/cmake)
file(COPY ${ROOT}/.gitattributes DESTINATION ${copy})
find_program(GIT git)
if(NOT GIT)
  expect(${copy} "")
  return()
endif()

set(git ${GIT} -C ${copy} -c user.name=test -c user.email=test@test.invalid)
run(ignored ${git} init -q)
run(ignored ${git} add -A)
run(ignored ${git} commit -qm "A commit")
run(commit ${git} rev-parse --short HEAD)
expect(${copy} ${commit})

# A tarball without git, though it is unpacked inside another repository.
file(MAKE_DIRECTORY ${copy}/unpacked)
run(ignored ${git} archive -o ${SCRATCH}/sources.tar HEAD)
file(ARCHIVE_EXTRACT INPUT ${SCRATCH}/sources.tar DESTINATION ${copy}/unpacked)
expect(${copy}/unpacked ${commit})
file(COPY ${ROOT}/cmake/commit.txt DESTINATION ${copy}/unpacked/cmake)
expect(${copy}/unpacked "")

file(APPEND ${copy}/.gitattributes "# changed\n")
expect(${copy} "${commit} with changes")
