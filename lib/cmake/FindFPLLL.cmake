# FPLLL. Defines FPLLL::FPLLL. Installed beside the package config, where it takes the shared library:
# a plug-in could not link the static one. The project itself asks for that first
# (SECTIO_FPLLL_NAMES): the shared library alone asks the dynamic loader for 17,000 symbols at every
# start, a quarter of the time of a short command. (LGPL: whoever has this source may link another
# copy.)
find_path(FPLLL_INCLUDE_DIR fplll.h)
find_library(FPLLL_LIBRARY NAMES ${SECTIO_FPLLL_NAMES} fplll)
mark_as_advanced(FPLLL_INCLUDE_DIR FPLLL_LIBRARY)
find_package(Threads QUIET)

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(FPLLL REQUIRED_VARS FPLLL_LIBRARY FPLLL_INCLUDE_DIR Threads_FOUND)

if(FPLLL_FOUND AND NOT TARGET FPLLL::FPLLL)
  add_library(FPLLL::FPLLL UNKNOWN IMPORTED)
  set_target_properties(FPLLL::FPLLL PROPERTIES
    IMPORTED_LOCATION ${FPLLL_LIBRARY} INTERFACE_INCLUDE_DIRECTORIES ${FPLLL_INCLUDE_DIR}
    INTERFACE_LINK_LIBRARIES "PkgConfig::MPFR;PkgConfig::GMP;Threads::Threads")
endif()
