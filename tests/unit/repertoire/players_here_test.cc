#include "repertoire/players_here.h"
