package measure

import (
	"encoding/json"
	"errors"
	"fmt"
)

// MarshalJSON writes the cause as it stands in a record's table of causes. The
// zero value, which is no cause, is an error.
func (c Cause) MarshalJSON() ([]byte, error) {
	if c.id == "" {
		return nil, errors.New("measure: a cause without an id; want one from NewCause")
	}
	return json.Marshal(c.record())
}

// UnmarshalJSON reads what MarshalJSON writes, into the zero value only: a cause
// that readings share must not change under them. All that NewCause refuses is
// an error, and so are unknown fields and null.
func (c *Cause) UnmarshalJSON(data []byte) error {
	if c == nil {
		return errNowhere
	}
	if c.id != "" {
		return fmt.Errorf("measure: cause %s is in use; want a new one to read into", quote(c.id))
	}
	read, err := decodeStrict[CauseRecord](data)
	if err != nil {
		return fmt.Errorf("measure: cause: %w; want an object as MarshalJSON writes it", err)
	}
	n, err := read.cause()
	if err != nil {
		return err
	}
	*c = *n
	return nil
}
