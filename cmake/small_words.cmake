# In a page each byte counts: of the core, what reads and writes text is compiled small; what computes stays
# fast. Included after all layers have named their sources.
set(word_layers "chart|setting|scheme|validate|format|report|telling|reader")
get_target_property(sources callfit_core SOURCES)
set(words ${sources})
list(FILTER words INCLUDE REGEX "/src/(${word_layers})/")
list(FILTER sources EXCLUDE REGEX "/src/(${word_layers})/")
set_target_properties(callfit_core PROPERTIES SOURCES "${sources}")

add_library(callfit_words STATIC ${words})
target_include_directories(callfit_words PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_include_directories(callfit_words SYSTEM PRIVATE ${Boost_INCLUDE_DIRS})
target_compile_options(callfit_words PRIVATE -Os)
target_link_libraries(callfit_words
  PUBLIC callfit_core
  PRIVATE callfit_warnings Eigen3::Eigen nlohmann_json::nlohmann_json fmt::fmt)
target_include_directories(callfit_words PRIVATE ${PROJECT_SOURCE_DIR}/include)
callfit_unite(callfit_words)
