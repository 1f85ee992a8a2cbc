# What `cpack` makes of the two components: callfit and libcallfit-dev for Debian.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The callfit authors <callfit@packages.invalid>")
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME callfit)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
# The typeface that pictures are laid out for; any other does, less well.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS fonts-noto-core)
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION
  "Turns charted snaps of a quarterback in American football into rates with
honest intervals, holds them against what a coordinator's scheme demands,
plays out drives, and draws the answer.")

# Static libraries: what they link, whoever uses them links.
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libcallfit-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "libcairo2-dev, libcsv-dev, libeigen3-dev, libfmt-dev, \
libpango1.0-dev, librsvg2-dev, nlohmann-json3-dev, pkg-config, zlib1g-dev")
set(CPACK_DEBIAN_DEVELOPMENT_DESCRIPTION
  "The headers and static libraries of callfit, and what find_package(callfit)
of CMake needs.")

# Debian wants of each package its copyright and its changes, these in two forms.
string(TIMESTAMP CALLFIT_PACKAGED "%a, %d %b %Y %H:%M:%S +0000" UTC)
foreach(component program development)
  string(TOUPPER ${component} upper)
  set(name ${CPACK_DEBIAN_${upper}_PACKAGE_NAME})
  set(folder ${CMAKE_INSTALL_DATADIR}/doc/${name})
  configure_file(cmake/package/changelog.Debian.in package/${name}/changelog.Debian @ONLY)
  configure_file(CHANGELOG.md package/${name}/changelog COPYONLY)
  foreach(file changelog changelog.Debian)
    execute_process(COMMAND gzip -9nf ${PROJECT_BINARY_DIR}/package/${name}/${file} COMMAND_ERROR_IS_FATAL ANY)
    install(FILES ${PROJECT_BINARY_DIR}/package/${name}/${file}.gz DESTINATION ${folder} COMPONENT ${component})
  endforeach()
  install(FILES docs/licences.md DESTINATION ${folder} RENAME copyright COMPONENT ${component})
endforeach()

include(CPack)
