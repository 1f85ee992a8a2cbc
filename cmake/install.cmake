include(CMakePackageConfigHelpers)

# The program with its data, and the libraries for other programs: one Debian package each.
set(CMAKE_INSTALL_DEFAULT_COMPONENT_NAME program)
set(docs ${CMAKE_INSTALL_DATADIR}/doc/callfit)

install(TARGETS callfit_program RUNTIME)
install(DIRECTORY schemes settings profiles DESTINATION ${CMAKE_INSTALL_DATADIR}/callfit)
# Left by scripts/page-engine; without it the installed program makes no pages.
install(DIRECTORY build/page-engine/engine DESTINATION ${CMAKE_INSTALL_DATADIR}/callfit OPTIONAL)
install(FILES docs/glossary.md DESTINATION ${CMAKE_INSTALL_DATADIR}/callfit/docs)
install(FILES README.md DESTINATION ${docs})
install(DIRECTORY docs DESTINATION ${docs})
install(FILES LICENSE DESTINATION ${docs})
install(FILES cmake/package/completion.bash RENAME callfit
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)

# Not there when only a library was built.
install(DIRECTORY ${PROJECT_BINARY_DIR}/manual/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 OPTIONAL)
add_custom_command(OUTPUT manual/callfit.1.gz
  COMMAND ${PROJECT_SOURCE_DIR}/cmake/package/manual $<TARGET_FILE:callfit_program>
    ${PROJECT_DESCRIPTION} ${PROJECT_BINARY_DIR}/manual
  DEPENDS callfit_program cmake/package/manual cmake/package/manual.awk VERBATIM)
add_custom_target(callfit_manual ALL DEPENDS manual/callfit.1.gz)

set(package ${CMAKE_INSTALL_LIBDIR}/cmake/callfit)
install(TARGETS callfit callfit_core callfit_flags EXPORT callfit-targets
  ARCHIVE COMPONENT development
  FILE_SET HEADERS COMPONENT development)
install(EXPORT callfit-targets NAMESPACE callfit:: DESTINATION ${package} COMPONENT development)
configure_package_config_file(cmake/callfit-config.cmake.in callfit-config.cmake
  INSTALL_DESTINATION ${package})
write_basic_package_version_file(callfit-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/callfit-config.cmake
              ${CMAKE_CURRENT_BINARY_DIR}/callfit-config-version.cmake
  DESTINATION ${package} COMPONENT development)
