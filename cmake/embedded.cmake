# Puts files of page/ into a layer, which finds them by page_files().
function(callfit_embed layer)
  set(made ${CMAKE_CURRENT_BINARY_DIR}/embedded.cpp)
  list(TRANSFORM ARGN PREPEND ${PROJECT_SOURCE_DIR}/page/ OUTPUT_VARIABLE paths)
  add_custom_command(
    OUTPUT ${made}
    COMMAND ${CMAKE_COMMAND} "-DFOLDER=${PROJECT_SOURCE_DIR}/page" "-DFILES=${ARGN}" -DLAYER=${layer}
            -DOUTPUT=${made} -P ${PROJECT_SOURCE_DIR}/cmake/embed.cmake
    DEPENDS ${paths} ${PROJECT_SOURCE_DIR}/cmake/embed.cmake
    VERBATIM)
  # The library is made in another folder, which does not see the command itself.
  add_custom_target(callfit_${layer}_files DEPENDS ${made})
  add_dependencies(callfit callfit_${layer}_files)
  target_sources(callfit PRIVATE ${made})
endfunction()
