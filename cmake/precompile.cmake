# Large headers that every file of a target reads are compiled once. Off, each file stands on its own
# includes: so the debug preset, which clang-tidy follows. The library has none: it gains little by it,
# and g++ 12 warns of more in headers that it has compiled before.
option(CALLFIT_PRECOMPILE "Precompile the large headers of the program and the tests" ON)

function(callfit_precompile target)
  if(CALLFIT_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE ${ARGN})
  endif()
endfunction()
