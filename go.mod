module dryfold

go 1.26

require github.com/go-gl/mathgl v1.2.0
