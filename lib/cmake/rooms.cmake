# What lib/CMakeLists.txt is written in: packages, rooms that link them, and libraries that rooms
# open.

# sectio_needs(TARGET PACKAGE name [version]) or sectio_needs(TARGET MODULE PREFIX module…, as
# pkg-config calls it): finds what gives TARGET. The installed package config finds it again for the
# rooms that link it, and for no others.
macro(sectio_needs target kind name)
  if("${kind}" STREQUAL "PACKAGE")
    find_package(${name} ${ARGN} REQUIRED)
    string(STRIP "${name} ${ARGN}" wanted)
    set_property(GLOBAL PROPERTY SECTIO_FINDS_${target} "find_dependency(${wanted})")
  else()
    pkg_check_modules(${name} REQUIRED IMPORTED_TARGET ${ARGN})
    string(REPLACE ";" " " wanted "${ARGN}")
    set_property(GLOBAL PROPERTY SECTIO_FINDS_${target}
      "pkg_check_modules(${name} REQUIRED QUIET IMPORTED_TARGET ${wanted})")
  endif()
endmacro()

# sectio_opens(ROOM LIB… module): a room has the headers of a library that it opens when it is first
# needed, and in SECTIO_LIB… the name of the interface that they belong to, such as "libzip.so.4".
function(sectio_opens room library module)
  pkg_check_modules(${library} REQUIRED ${module})
  find_library(SECTIO_${library}_FILE NAMES ${${library}_LIBRARIES} REQUIRED)
  execute_process(COMMAND ${CMAKE_OBJDUMP} -p ${SECTIO_${library}_FILE}
                  OUTPUT_VARIABLE head COMMAND_ERROR_IS_FATAL ANY)
  if(NOT head MATCHES "SONAME +([^ \n]+)")
    message(FATAL_ERROR "${SECTIO_${library}_FILE} does not say its SONAME")
  endif()
  target_include_directories(sectio_${room} PRIVATE ${${library}_INCLUDE_DIRS})
  target_compile_definitions(sectio_${room} PRIVATE SECTIO_${library}="${CMAKE_MATCH_1}")
  set_property(GLOBAL PROPERTY SECTIO_OPENS_${library} ${CMAKE_MATCH_1})
endfunction()

# What the installed config asks of `name`: the rooms behind it, and the packages of its own.
function(sectio_remember_room name uses links)
  set(finds "")
  foreach(link ${links})
    get_property(find GLOBAL PROPERTY SECTIO_FINDS_${link})
    if(find)
      string(APPEND finds "  ${find}\n")
    endif()
  endforeach()
  string(REPLACE ";" " " uses "${uses}")
  set_property(GLOBAL APPEND_STRING PROPERTY SECTIO_COMPONENT_LINES
    "set(_sectio_${name}_uses ${uses})\nmacro(_sectio_${name}_finds)\n${finds}endmacro()\n")
endfunction()

# sectio_room(NAME [LIGHT] USES rooms… LINKS public libraries… PRIVATE private libraries…)
# A library of all sources in the folder NAME. A LIGHT room arranges what others compute, so that
# little is gained by optimising it far. The global properties SECTIO_ROOMS and
# SECTIO_USES_NAME say what exists and what may use what; tests/checks reads them.
function(sectio_room name)
  cmake_parse_arguments(ROOM "LIGHT" "" "USES;LINKS;PRIVATE" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${name}/*.cpp)
  if(NOT sources)
    return()
  endif()
  if(SECTIO_ARCHIVES)
    set(sources ${PROJECT_BINARY_DIR}/generated/none.cpp)
  endif()
  add_library(sectio_${name} ${sources})
  add_library(sectio::${name} ALIAS sectio_${name})
  set_property(GLOBAL APPEND PROPERTY SECTIO_ROOMS ${name})
  set_property(GLOBAL PROPERTY SECTIO_USES_${name} ${ROOM_USES})
  sectio_remember_room(${name} "${ROOM_USES}" "${ROOM_LINKS};${ROOM_PRIVATE}")
  # Below 1.0 a minor version may break what uses it, so the name of a shared library carries it.
  set_target_properties(sectio_${name} PROPERTIES EXPORT_NAME ${name} UNITY_BUILD ${SECTIO_UNITY}
    UNITY_BUILD_BATCH_SIZE 40
    POSITION_INDEPENDENT_CODE ON DEFINE_SYMBOL "" VERSION ${PROJECT_VERSION}
    SOVERSION ${PROJECT_VERSION_MAJOR}.${PROJECT_VERSION_MINOR})
  target_compile_features(sectio_${name} PUBLIC cxx_std_20)
  if(BUILD_SHARED_LIBS)
    set(exports ${PROJECT_BINARY_DIR}/generated/exports.map)
    target_link_options(sectio_${name} PRIVATE LINKER:--version-script=${exports})
    set_target_properties(sectio_${name} PROPERTIES LINK_DEPENDS ${exports})
  else() # a plug-in that is linked with them gives out its own symbols alone
    target_link_options(sectio_${name} INTERFACE
      $<INSTALL_INTERFACE:LINKER:--exclude-libs,libsectio_${name}.a>)
  endif()
  # Boost's numbers are half of the time that most sources take to compile. The headers that
  # `interval` has precompiled, which is compiled with no definition of its own, serve those behind;
  # LIGHT rooms have theirs from `page` where the compiler refuses what was precompiled at another
  # level: clang, and GCC from 13 on.
  set(heads sectio_interval)
  if(ROOM_LIGHT)
    target_compile_options(sectio_${name} PRIVATE ${SECTIO_LIGHT})
    if(CMAKE_CXX_COMPILER_ID MATCHES "Clang" OR CMAKE_CXX_COMPILER_VERSION VERSION_GREATER 13)
      set(heads sectio_page)
    endif()
  endif()
  if(SECTIO_ARCHIVES)
    target_link_libraries(sectio_${name} PRIVATE
      "$<BUILD_INTERFACE:$<LINK_LIBRARY:WHOLE_ARCHIVE,${SECTIO_ARCHIVES}/libsectio_${name}.a>>")
  elseif(NOT heads STREQUAL "sectio_${name}" AND TARGET sectio_interval)
    target_precompile_headers(sectio_${name} REUSE_FROM ${heads})
  elseif(NOT SECTIO_UNITY OR NOT name STREQUAL "base") # `base` is one joined source
    target_precompile_headers(sectio_${name} PRIVATE
      <boost/multiprecision/gmp.hpp> <boost/rational.hpp> <fmt/format.h>)
  endif()
  # Fuzzers follow the branches of the library alone.
  target_compile_options(sectio_${name} PRIVATE
    $<$<BOOL:${SECTIO_FUZZERS}>:-fsanitize=fuzzer-no-link>)
  target_include_directories(sectio_${name} PUBLIC
    $<BUILD_INTERFACE:${PROJECT_BINARY_DIR}/include>
    $<BUILD_INTERFACE:${PROJECT_BINARY_DIR}/generated>
    $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>)
  foreach(room ${ROOM_USES})
    target_link_libraries(sectio_${name} PUBLIC sectio_${room})
  endforeach()
  target_link_libraries(sectio_${name} PUBLIC ${ROOM_LINKS}
                        PRIVATE ${ROOM_PRIVATE} $<BUILD_INTERFACE:sectio_options>)
  install(TARGETS sectio_${name} EXPORT sectioTargets
          LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT library
          NAMELINK_COMPONENT development
          ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT development)
endfunction()

# All rooms as one target, headers, and what CMake and pkg-config read. Called once, after the last
# room.
function(sectio_install_package)
  get_property(rooms GLOBAL PROPERTY SECTIO_ROOMS)
  add_library(sectio_all INTERFACE)
  add_library(sectio::sectio ALIAS sectio_all)
  set_target_properties(sectio_all PROPERTIES EXPORT_NAME sectio)
  list(TRANSFORM rooms PREPEND sectio_ OUTPUT_VARIABLE targets)
  target_link_libraries(sectio_all INTERFACE ${targets})
  install(TARGETS sectio_all EXPORT sectioTargets)

  set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/sectio)
  set(SECTIO_DATA_INSTALL_DIR ${CMAKE_INSTALL_DATADIR}/sectio)
  get_property(SECTIO_COMPONENT_LINES GLOBAL PROPERTY SECTIO_COMPONENT_LINES)
  string(REPLACE ";" " " SECTIO_ROOMS "${rooms}")
  include(CMakePackageConfigHelpers)
  configure_package_config_file(cmake/sectioConfig.cmake.in sectioConfig.cmake
    INSTALL_DESTINATION ${package_dir} PATH_VARS SECTIO_DATA_INSTALL_DIR
    NO_SET_AND_CHECK_MACRO)
  # Below 1.0 a minor version may break what uses it.
  write_basic_package_version_file(sectioConfigVersion.cmake COMPATIBILITY SameMinorVersion)
  install(FILES ${CMAKE_CURRENT_BINARY_DIR}/sectioConfig.cmake
                ${CMAKE_CURRENT_BINARY_DIR}/sectioConfigVersion.cmake cmake/FindMPFI.cmake
                cmake/FindFPLLL.cmake
          DESTINATION ${package_dir} COMPONENT development)
  install(EXPORT sectioTargets NAMESPACE sectio:: DESTINATION ${package_dir}
          COMPONENT development)
  sectio_install_pkg_config("${rooms}")
  sectio_install_headers()
endfunction()

# sectio.pc, which finds its prefix from where it lies itself.
function(sectio_install_pkg_config rooms)
  file(RELATIVE_PATH SECTIO_PC_PREFIX /${CMAKE_INSTALL_LIBDIR}/pkgconfig /)
  list(REVERSE rooms) # who uses stands before what is used
  list(TRANSFORM rooms PREPEND -lsectio_)
  if(NOT BUILD_SHARED_LIBS) # as for CMake: the index of the catalogue within
    list(APPEND rooms -lsectio_catalogue -Wl,-u,sectio_catalogue_index)
  endif()
  string(REPLACE ";" " " SECTIO_PC_LIBS "${rooms}")
  configure_file(cmake/sectio.pc.in sectio.pc @ONLY)
  install(FILES ${CMAKE_CURRENT_BINARY_DIR}/sectio.pc
          DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT development)
endfunction()

# A header that begins by saying that it is private to its room stays here; tests/checks sees to it
# that no other header includes one.
function(sectio_install_headers)
  file(GLOB_RECURSE headers CONFIGURE_DEPENDS RELATIVE ${CMAKE_CURRENT_SOURCE_DIR} *.hpp *.def)
  foreach(header ${headers})
    file(STRINGS ${header} private LIMIT_COUNT 1 REGEX "^/// Private to ")
    if(NOT private)
      get_filename_component(room ${header} DIRECTORY)
      install(FILES ${header} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/sectio/${room}
              COMPONENT development)
    endif()
  endforeach()
  install(FILES ${PROJECT_BINARY_DIR}/generated/sectio/version.hpp
          DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/sectio COMPONENT development)
endfunction()
