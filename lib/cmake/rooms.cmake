# The two things that lib/CMakeLists.txt is written in: rooms, and the packages they need.

# sectio_needs(PACKAGE name [version]) or sectio_needs(MODULE PREFIX pkg-config-module): finds it
# here, and has the installed package config find it again.
function(sectio_remember line)
  set_property(GLOBAL APPEND_STRING PROPERTY SECTIO_DEPENDENCY_LINES "${line}\n")
endfunction()
macro(sectio_needs kind name)
  if("${kind}" STREQUAL "PACKAGE")
    find_package(${name} ${ARGN} REQUIRED)
    string(STRIP "${name} ${ARGN}" wanted)
    sectio_remember("find_dependency(${wanted})")
  else()
    pkg_check_modules(${name} REQUIRED IMPORTED_TARGET ${ARGN})
    sectio_remember("pkg_check_modules(${name} REQUIRED QUIET IMPORTED_TARGET ${ARGN})")
  endif()
endmacro()

# sectio_room(NAME USES rooms… LINKS public libraries… PRIVATE private libraries…)
# A library of all sources in the folder NAME. The global properties SECTIO_ROOMS and
# SECTIO_USES_NAME say what exists and what may use what; tests/checks reads them.
function(sectio_room name)
  cmake_parse_arguments(ROOM "" "" "USES;LINKS;PRIVATE" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${name}/*.cpp)
  if(NOT sources)
    return()
  endif()
  add_library(sectio_${name} STATIC ${sources})
  add_library(sectio::${name} ALIAS sectio_${name})
  set_property(GLOBAL APPEND PROPERTY SECTIO_ROOMS ${name})
  set_property(GLOBAL PROPERTY SECTIO_USES_${name} ${ROOM_USES})
  set_target_properties(sectio_${name} PROPERTIES EXPORT_NAME ${name} UNITY_BUILD ${SECTIO_UNITY})
  target_compile_features(sectio_${name} PUBLIC cxx_std_20)
  # Boost's numbers are half of the time that most sources take to compile. The headers that
  # `interval` has precompiled, which is compiled with no definition of its own, serve those behind.
  if(NOT name STREQUAL "interval" AND TARGET sectio_interval)
    target_precompile_headers(sectio_${name} REUSE_FROM sectio_interval)
  else()
    target_precompile_headers(sectio_${name} PRIVATE
      <boost/multiprecision/gmp.hpp> <boost/rational.hpp> <fmt/format.h>)
  endif()
  # Fuzzers follow the branches of the library alone.
  target_compile_options(sectio_${name} PRIVATE
    $<$<BOOL:${SECTIO_FUZZERS}>:-fsanitize=fuzzer-no-link>)
  target_include_directories(sectio_${name} PUBLIC
    $<BUILD_INTERFACE:${PROJECT_BINARY_DIR}/include> $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>)
  foreach(room ${ROOM_USES})
    target_link_libraries(sectio_${name} PUBLIC sectio_${room})
  endforeach()
  target_link_libraries(sectio_${name} PUBLIC ${ROOM_LINKS}
                        PRIVATE ${ROOM_PRIVATE} $<BUILD_INTERFACE:sectio_options>)
  install(TARGETS sectio_${name} EXPORT sectioTargets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
endfunction()

# Headers, targets and the package config. Called once, after the last room.
function(sectio_install_package)
  set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/sectio)
  set(SECTIO_DATA_INSTALL_DIR ${CMAKE_INSTALL_DATADIR}/sectio)
  get_property(SECTIO_DEPENDENCY_LINES GLOBAL PROPERTY SECTIO_DEPENDENCY_LINES)
  include(CMakePackageConfigHelpers)
  configure_package_config_file(cmake/sectioConfig.cmake.in sectioConfig.cmake
    INSTALL_DESTINATION ${package_dir} PATH_VARS SECTIO_DATA_INSTALL_DIR
    NO_SET_AND_CHECK_MACRO NO_CHECK_REQUIRED_COMPONENTS_MACRO)
  # Below 1.0 a minor version may break what uses it.
  write_basic_package_version_file(sectioConfigVersion.cmake COMPATIBILITY SameMinorVersion)
  install(FILES ${CMAKE_CURRENT_BINARY_DIR}/sectioConfig.cmake
                ${CMAKE_CURRENT_BINARY_DIR}/sectioConfigVersion.cmake cmake/FindMPFI.cmake
                cmake/FindFPLLL.cmake
          DESTINATION ${package_dir})
  install(EXPORT sectioTargets NAMESPACE sectio:: DESTINATION ${package_dir})
  # A header that begins by saying that it is private to its room stays here; tests/checks sees to it
  # that no other header includes one.
  file(GLOB_RECURSE headers CONFIGURE_DEPENDS RELATIVE ${CMAKE_CURRENT_SOURCE_DIR} *.hpp *.def)
  foreach(header ${headers})
    file(STRINGS ${header} private LIMIT_COUNT 1 REGEX "^/// Private to ")
    if(NOT private)
      get_filename_component(room ${header} DIRECTORY)
      install(FILES ${header} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/sectio/${room})
    endif()
  endforeach()
endfunction()
