package raster

// MaxSide and MaxPixels bound a picture, so that no size asked for can take all memory.
const (
	MaxSide   = 16384
	MaxPixels = 64 << 20
)

const (
	// bandSamples is about how many samples are kept at once, 8 bytes each: what a processor has near at hand. A picture is
	// drawn in bands of so many.
	bandSamples = 1 << 18
	// perPixel: samples a pixel has along each side.
	perPixel = 3
)

// The run-through as a GIF.
const (
	// GIFWidth, GIFHeight are its size where none is asked for (px): it fits a message or a page of instructions.
	GIFWidth, GIFHeight = 480, 360
	// minGIF and MaxGIFSide bound its sides (px): smaller, its words can't be read; larger, it is a film.
	minGIF, MaxGIFSide = 120, 1600
	// MaxGIFFrames bounds its frames, and maxGIFPixels the pixels of all of them together, one byte each, before they are
	// cropped to what moves.
	MaxGIFFrames = 600
	maxGIFPixels = 256 << 20

	// degreesAFrame: a swing has a frame for each so many degrees, from leastFrames to mostFrames; fewer where
	// there are many swings.
	degreesAFrame           = 9
	leastFrames, mostFrames = 4, 12
	// How long frames stand (hundredths of a second): one of a swing, the last one of a swing, the flat blank, the finished part.
	swingTime, restTime, flatTime, endTime = 7, 70, 120, 300

	// gifColours, of 256 that GIF has: one stands for "as it was". Fewer make it smaller, and the shadow shows steps.
	gifColours = 96
	// paletteLooks: moments of the run-through, at most, from which the colours are chosen.
	paletteLooks = 24
	// headPx: height of the strip with the card's number and name (px); headType of its type; both less in small ones.
	headPx, headType = 34, 17
)
