package sheet

import "errors"

// Limits of one file. A procedure written by hand stays far below each; each keeps the cost of a hostile file bounded.
const (
	MaxBytes  = 256 << 10 // bytes of one file
	MaxDepth  = 8         // names in one table header
	MaxKey    = 64        // bytes of one key
	MaxText   = 4096      // bytes of one value as written
	MaxList   = 64        // values in one list
	MaxNames  = 4096      // tables and keys of one file together; a name counts again in each header
	MaxItems  = 1024      // values in all lists of one file together
	MaxFaults = 200       // faults shown of one file; the rest are counted
)

// The scan ends when this many faults are stored: a file with more is not a sheet.
const maxStored = 1000

// Errors a caller may branch on. Each arrives wrapped with the name of the file.
var (
	// ErrTooLarge: the file is larger than MaxBytes. It was not read any further.
	ErrTooLarge = errors.New("file too large")
	// ErrNotPlain: a directory, link, device or pipe stands where a plain file is wanted.
	ErrNotPlain = errors.New("not a plain file")
	// ErrPath: the path is absolute, leaves its folder, or is otherwise not a slash-separated path inside it.
	ErrPath = errors.New("path outside the folder")
)
