package thermal

import "errors"

// MarshalText returns the material's name as ParseMaterial reads it; the
// unknown material is an error.
func (m Material) MarshalText() ([]byte, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads what MarshalText wrote; on error the material is left as
// it was.
func (m *Material) UnmarshalText(text []byte) error {
	if m == nil {
		return errors.New("thermal: nowhere to read a material into; want a pointer that is not nil")
	}
	got, err := ParseMaterial(string(text))
	if err != nil {
		return err
	}
	*m = got
	return nil
}
