namespace compline::app {}
