# What is installed beside programs and libraries: the data, and the documents for users with links
# that hold there.

# The built programs find the data as installed ones do, in share/sectio of a folder above them.
set(built_data ${PROJECT_BINARY_DIR}/share/sectio)
file(MAKE_DIRECTORY ${built_data})
foreach(name catalogue examples sources.toml)
  file(CREATE_LINK ${PROJECT_SOURCE_DIR}/data/${name} ${built_data}/${name} SYMBOLIC)
endforeach()
install(DIRECTORY data/ DESTINATION ${CMAKE_INSTALL_DATADIR}/sectio)

# DEVELOPERS.md is about the source and stays with it: README.md names it without a link.
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS README.md)
file(READ README.md readme)
string(REPLACE "](DEVELOPERS.md)" "]" readme "${readme}")
string(REPLACE "[DEVELOPERS.md]" "DEVELOPERS.md of the source" readme "${readme}")
file(WRITE ${PROJECT_BINARY_DIR}/README.md "${readme}")
install(FILES ${PROJECT_BINARY_DIR}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY docs DESTINATION ${CMAKE_INSTALL_DOCDIR} PATTERN "*.sh" EXCLUDE)
