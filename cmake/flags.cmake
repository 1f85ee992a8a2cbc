set(CMAKE_CXX_EXTENSIONS OFF)

# Flags of our own code. Never set globally: a user of the library keeps their own.
add_library(callfit_flags INTERFACE)
target_compile_features(callfit_flags INTERFACE cxx_std_20)
# Contraction off: g++ and clang++ must agree to printed precision.
target_compile_options(callfit_flags INTERFACE -ffp-contract=off)

add_library(callfit_warnings INTERFACE)
target_compile_options(callfit_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wnon-virtual-dtor
  -Woverloaded-virtual -Wold-style-cast -Wimplicit-fallthrough -Wformat=2 -Wmissing-declarations
  $<$<BOOL:${CALLFIT_WARNINGS_AS_ERRORS}>:-Werror>
  $<$<NOT:$<BOOL:${CALLFIT_UNITY}>>:-Wshadow>
  # False alarms of g++ 12 on std::string's operator+ (GCC bug 105651) and on moved std::variant
  # and std::optional (GCC bug 105562); the clang preset and the sanitizers watch instead.
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>
  $<$<CXX_COMPILER_ID:GNU>:-Wno-maybe-uninitialized>
  # What a loop is marked for (base/vector_loops.hpp) clang does at -O2 and above only, and says so.
  $<$<AND:$<CXX_COMPILER_ID:Clang>,$<NOT:$<CONFIG:Release>>>:-Wno-pass-failed>)

if(CALLFIT_SANITIZE)
  target_compile_options(callfit_flags INTERFACE
    -fsanitize=${CALLFIT_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer
    # g++ takes two fifths of its time for these two. A null pointer that is read through ends in the address
    # sanitizer as well; the fuzz preset (clang) looks at both.
    $<$<CXX_COMPILER_ID:GNU>:-fno-sanitize=null,alignment>)
  target_compile_definitions(callfit_flags INTERFACE _GLIBCXX_ASSERTIONS)
  target_link_options(callfit_flags INTERFACE -fsanitize=${CALLFIT_SANITIZE})
endif()
