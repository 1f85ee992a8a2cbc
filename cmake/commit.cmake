# Writes the header OUTPUT with the commit of the sources in ROOT: what git says; without git what
# `git archive` put into commit.txt; else nothing.
cmake_minimum_required(VERSION 3.25)
find_program(GIT git)

function(ask_git result)
  set(out "")
  if(GIT)
    execute_process(COMMAND ${GIT} -C ${ROOT} ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE out
      ERROR_QUIET OUTPUT_STRIP_TRAILING_WHITESPACE)
    if(code)
      set(out "")
    endif()
  endif()
  set(${result} "${out}" PARENT_SCOPE)
endfunction()

# A tarball unpacked inside another project's repository is no part of that.
ask_git(top rev-parse --show-toplevel)
file(REAL_PATH ${ROOT} root)
if(top STREQUAL root)
  ask_git(commit rev-parse --short HEAD)
  ask_git(changes status --porcelain --untracked-files=no)
  if(commit AND changes)
    string(APPEND commit " with changes")
  endif()
else()
  file(STRINGS ${ROOT}/cmake/commit.txt commit LIMIT_COUNT 1)
  if(NOT commit MATCHES "^[0-9a-f]+$")
    set(commit "")
  endif()
endif()
file(CONFIGURE OUTPUT ${OUTPUT} CONTENT [[#define CALLFIT_COMMIT "@commit@"
]] @ONLY)
