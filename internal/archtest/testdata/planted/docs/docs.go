// path: exchange

package docs // want

const Beside = 1 // a remark on the line will do

const Naked = /* want */ Beside

// A group of constants needs one comment.
const (
	One = 1
	Two = 2
)

type Undocumented /* want */ struct{}

// A group of types needs one each.
type (
	Third/* want */ struct{}

	// Fourth has one.
	Fourth struct{}
)

func Free( /* want */ ) {}

func (*Fourth) Method( /* want */ ) {}

func (hidden) Method() {}

type hidden struct{}

// Fine has one.
func Fine() {}

func quiet() {}
