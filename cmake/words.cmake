# Layers of the core that read and write text wait for no processor: less to optimise is built sooner, and in
# a page each byte counts. Included after all layers have named their sources.
set(word_layers "format|report|telling|reader")
get_target_property(sources callfit_core SOURCES)
set(words ${sources})
list(FILTER words INCLUDE REGEX "/src/(${word_layers})/")
list(FILTER sources EXCLUDE REGEX "/src/(${word_layers})/")
set_target_properties(callfit_core PROPERTIES SOURCES "${sources}")

add_library(callfit_words OBJECT ${words})
get_target_property(includes callfit_core INCLUDE_DIRECTORIES)
target_include_directories(callfit_words SYSTEM PRIVATE ${includes})
target_include_directories(callfit_words PRIVATE ${CMAKE_CURRENT_SOURCE_DIR} ${PROJECT_SOURCE_DIR}/include)
target_compile_options(callfit_words PRIVATE $<$<CONFIG:Release,RelWithDebInfo>:$<IF:$<BOOL:${EMSCRIPTEN}>,-Os,-O1>>)
target_link_libraries(callfit_words
  PRIVATE callfit_flags callfit_warnings Eigen3::Eigen nlohmann_json::nlohmann_json fmt::fmt)
target_sources(callfit_core PRIVATE $<TARGET_OBJECTS:callfit_words>)
callfit_unite(callfit_words)
