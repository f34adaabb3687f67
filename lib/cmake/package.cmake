# Debian packages, by `cmake --build build --target package`: `sectio` with the command, data, manual
# pages, completion and documents, and `libsectio-dev` with headers, libraries and what CMake and
# pkg-config read. Dependencies are found by dpkg-shlibdeps; what is opened at need is named here.

# The changelog in Debian's form, of the latest section of docs/changelog.md: "## 0.3.0 (2026-11-28)".
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS docs/changelog.md)
file(READ docs/changelog.md changes)
if(NOT changes MATCHES "\n## ([0-9.]+) \\(([0-9-]+)\\)\n([^#]*)"
   OR NOT CMAKE_MATCH_1 STREQUAL PROJECT_VERSION)
  message(FATAL_ERROR "docs/changelog.md does not begin with version ${PROJECT_VERSION}")
endif()
set(changes ${CMAKE_MATCH_3})
execute_process(COMMAND date -R -u -d ${CMAKE_MATCH_2} OUTPUT_VARIABLE day
                OUTPUT_STRIP_TRAILING_WHITESPACE)
string(STRIP "${changes}" changes)
string(REGEX REPLACE "\n\n+" "\n" changes "${changes}")
string(REGEX REPLACE "\n +" "\n    " changes "\n${changes}")
string(REGEX REPLACE "\n- " "\n  * " changes "${changes}")
set(maintainer "Sectio maintainers <sectio@users.noreply.github.com>")
file(WRITE ${PROJECT_BINARY_DIR}/package/changelog
     "sectio (${PROJECT_VERSION}) unstable; urgency=low\n${changes}\n\n -- ${maintainer}  ${day}\n")
execute_process(COMMAND gzip -9nf ${PROJECT_BINARY_DIR}/package/changelog)
foreach(pair program:sectio development:libsectio-dev)
  string(REPLACE ":" ";" pair ${pair})
  list(GET pair 0 component)
  list(GET pair 1 name)
  install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/${name} RENAME copyright
          COMPONENT ${component})
  install(FILES ${PROJECT_BINARY_DIR}/package/changelog.gz
          DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/${name} COMPONENT ${component})
endforeach()
file(WRITE ${PROJECT_BINARY_DIR}/package/libsectio-dev
     "# It holds the index of the catalogue, which is data.\nlibsectio-dev: no-code-sections *libsectio_catalogue.a*\n")
install(FILES ${PROJECT_BINARY_DIR}/package/libsectio-dev
        DESTINATION ${CMAKE_INSTALL_DATADIR}/lintian/overrides COMPONENT development)

# package_of(VARIABLE LIBRARY): the Debian package of a library that a room opens.
function(package_of variable library)
  get_property(file GLOBAL PROPERTY SECTIO_OPENS_${library})
  execute_process(COMMAND dpkg-query -S "*/${file}" OUTPUT_VARIABLE found ERROR_QUIET)
  string(REGEX REPLACE ":.*" "" found "${found}")
  set(${variable} "${found}" PARENT_SCOPE)
endfunction()
package_of(sndfile_package LIBSNDFILE)
package_of(zip_package LIBZIP)
package_of(http_package LIBMICROHTTPD)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME sectio)
set(CPACK_PACKAGE_CONTACT ${maintainer})
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME sectio)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION sound)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS
    "${sndfile_package}, ${zip_package}, ${http_package}, fonts-noto-core")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION "exact intervals, scales and tunings for players and makers
 The command finds which pitches an instrument has, which named scale accounts
 for them and how far an equal division can carry that, and makes charts for
 the stand, fret templates, annotated scores, tuning data and sound of it.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libsectio-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "libboost-dev, libfmt-dev, libgmp-dev, libmpfr-dev, \
libmpfi-dev, libfplll-dev, libtomlplusplus-dev, libutf8proc-dev, libexpat1-dev, libglib2.0-dev, libpango1.0-dev, \
libcairo2-dev, pkg-config")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SUGGESTS "sectio, libsndfile1, libzip-dev")
set(CPACK_DEBIAN_DEVELOPMENT_DESCRIPTION "C++ library of exact intervals, scales and tunings
 Headers, static libraries, and the files by which CMake and pkg-config find
 them, of the library that the command sectio is made of.")
include(CPack)
