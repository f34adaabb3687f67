# FPLLL, its static archive where there is one: the shared library alone asks the dynamic loader for
# 17,000 symbols at every start, a quarter of the time of a short command. Defines FPLLL::FPLLL.
# (LGPL: whoever has this source may link another copy.) Installed beside the package config.
find_path(FPLLL_INCLUDE_DIR fplll.h)
find_library(FPLLL_LIBRARY NAMES libfplll.a fplll)
mark_as_advanced(FPLLL_INCLUDE_DIR FPLLL_LIBRARY)

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(FPLLL REQUIRED_VARS FPLLL_LIBRARY FPLLL_INCLUDE_DIR)

if(FPLLL_FOUND AND NOT TARGET FPLLL::FPLLL)
  add_library(FPLLL::FPLLL UNKNOWN IMPORTED)
  set_target_properties(FPLLL::FPLLL PROPERTIES
    IMPORTED_LOCATION ${FPLLL_LIBRARY} INTERFACE_INCLUDE_DIRECTORIES ${FPLLL_INCLUDE_DIR}
    INTERFACE_LINK_LIBRARIES "PkgConfig::MPFR;PkgConfig::GMP;Threads::Threads")
endif()
