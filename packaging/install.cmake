# What `cmake --install` puts where. Whole folders are taken, so that a new pack, scheme or page of the handbook comes along by itself.
include(CMakePackageConfigHelpers)

install(TARGETS exworks_cli RUNTIME)
install(TARGETS exworks_shared EXPORT exworks LIBRARY NAMELINK_SKIP)
install(TARGETS exworks_shared LIBRARY NAMELINK_ONLY)
install(FILES ${PROJECT_SOURCE_DIR}/lib/api/exworks.hpp DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/exworks)

install(DIRECTORY ${PROJECT_SOURCE_DIR}/rules ${PROJECT_SOURCE_DIR}/sample-vehicles DESTINATION ${CMAKE_INSTALL_DATADIR}/exworks)
install(FILES ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
# The handbook for users stands in rules/; what parts of the library explain about themselves stands beside them.
file(GLOB explanations CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/lib/*/*.md)
install(FILES ${explanations} DESTINATION ${CMAKE_INSTALL_DOCDIR})

# Manual pages and completions, as the build wrote them.
install(DIRECTORY ${PROJECT_BINARY_DIR}/cli/manual/man/ DESTINATION ${CMAKE_INSTALL_MANDIR})
install(DIRECTORY ${PROJECT_BINARY_DIR}/cli/manual/bash-completion DESTINATION ${CMAKE_INSTALL_DATADIR})
install(DIRECTORY ${PROJECT_BINARY_DIR}/cli/manual/zsh DESTINATION ${CMAKE_INSTALL_DATADIR})
install(DIRECTORY ${PROJECT_BINARY_DIR}/cli/manual/fish DESTINATION ${CMAKE_INSTALL_DATADIR})

# find_package(exworks): gives exworks::exworks, and exworks_RULES_DIR for the packs that were installed with it.
set(config_folder ${CMAKE_INSTALL_LIBDIR}/cmake/exworks)
set(rules_folder ${CMAKE_INSTALL_DATADIR}/exworks/rules)
install(EXPORT exworks NAMESPACE exworks:: DESTINATION ${config_folder} FILE exworks-targets.cmake)
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/exworks-config.cmake.in ${PROJECT_BINARY_DIR}/exworks-config.cmake
  INSTALL_DESTINATION ${config_folder} PATH_VARS rules_folder)
# Before 1.0 a minor version may change the interface.
write_basic_package_version_file(${PROJECT_BINARY_DIR}/exworks-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/exworks-config.cmake ${PROJECT_BINARY_DIR}/exworks-config-version.cmake DESTINATION ${config_folder})
