// bare_page WORDS.txt OUT.pdf: the words of a text on one bare page, as a process of its own.

#include "bare_page.hpp"

#include <fstream>
#include <iostream>
#include <sstream>

int main(int count, char** arguments) {
    if (count != 3) {
        std::cerr << "usage: bare_page WORDS.txt OUT.pdf\n";
        return 2;
    }
    std::stringstream text;
    text << std::ifstream(arguments[1]).rdbuf();
    std::ofstream(arguments[2], std::ios::binary) << bare::page(bare::words_of(text.str()));
}
