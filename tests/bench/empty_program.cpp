#include <string>

int main(int count, char** words) { return std::string(words[0]).empty() ? count : 0; }
