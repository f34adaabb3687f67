# MPFI comes without a package file of its own. Defines MPFI::MPFI. Installed beside the package
# config, so that a user of the library finds MPFI in the same way and no path is carried over.
find_path(MPFI_INCLUDE_DIR mpfi.h)
find_library(MPFI_LIBRARY mpfi)
mark_as_advanced(MPFI_INCLUDE_DIR MPFI_LIBRARY)

include(FindPackageHandleStandardArgs)
find_package_handle_standard_args(MPFI REQUIRED_VARS MPFI_LIBRARY MPFI_INCLUDE_DIR)

if(MPFI_FOUND AND NOT TARGET MPFI::MPFI)
  add_library(MPFI::MPFI UNKNOWN IMPORTED)
  set_target_properties(MPFI::MPFI PROPERTIES
    IMPORTED_LOCATION ${MPFI_LIBRARY} INTERFACE_INCLUDE_DIRECTORIES ${MPFI_INCLUDE_DIR})
endif()
