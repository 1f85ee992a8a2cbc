# Large headers that every file of a target reads can be compiled once: a second of processor time saved
# a file. Off unless asked for, since a header compiled with other flags, by a compiler cache too, is an
# error then. The library has none: it gains little by it, and g++ 12 warns of more in such headers.
option(CALLFIT_PRECOMPILE "Precompile the large headers of the program and the tests" OFF)

function(callfit_precompile target)
  if(CALLFIT_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE ${ARGN})
  endif()
endfunction()
