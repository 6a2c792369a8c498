# A package for Debian: `cpack --config build/release/CPackConfig.cmake`. The version is the project's.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The exworks developers <exworks@localhost>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
# The libraries that the binaries ask for, with the versions that they need, worked out by dpkg-shlibdeps.
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# Reports and sheets as PDF; everything else works without it.
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS weasyprint)
# Tells other packages what to depend on, and has the cache of ld.so renewed after installing.
set(CPACK_DEBIAN_PACKAGE_GENERATE_SHLIBS ON)
# The summary above it is the project's description.
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "Identifies old utility vehicles from what an inspector can see, measure and read off them, by dated facts with sources.")
include(CPack)
