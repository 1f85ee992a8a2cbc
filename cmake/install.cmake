include(CMakePackageConfigHelpers)

install(TARGETS callfit callfit_core callfit_flags EXPORT callfit-targets
  ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
  FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(TARGETS callfit_program RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(EXPORT callfit-targets NAMESPACE callfit::
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/callfit)

configure_package_config_file(cmake/callfit-config.cmake.in callfit-config.cmake
  INSTALL_DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/callfit)
write_basic_package_version_file(callfit-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/callfit-config.cmake
              ${CMAKE_CURRENT_BINARY_DIR}/callfit-config-version.cmake
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/callfit)

install(DIRECTORY schemes settings profiles DESTINATION ${CMAKE_INSTALL_DATADIR}/callfit)
install(FILES docs/glossary.md DESTINATION ${CMAKE_INSTALL_DATADIR}/callfit/docs)
