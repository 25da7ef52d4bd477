package exchange

import (
	"strconv"

	"example.com/meniscus/units"
	"example.com/meniscus/units/working"
)

// Steps returns the working of n swaps of the drained volume each: what one swap
// loses, how low the box then stands ([Losses.Shortfall]), what each swap acts as
// ([Losses.Acting]), and what has to be poured in all to leave the box level: the
// drains, what the losses took, and what fills the pump once. Volumes are printed
// to a millilitre. Faults as for those two.
func (l Losses) Steps(drained units.Volume, n int) (working.Steps, error) {
	low, err := l.Shortfall(n)
	if err != nil {
		return nil, err
	}
	acts, err := l.Acting(drained)
	if err != nil {
		return nil, err
	}
	times := strconv.Itoa(n) + " × "
	s := working.Steps{}.Add("lost at each swap", "kept + film", stepLitres(l.KeptEachTime)+" + "+stepLitres(l.FilmEachTime), stepLitres(l.EachTime()))
	s = s.Add("box low after all swaps, if as much is poured as was drained", "n × lost", times+stepLitres(l.EachTime()), stepLitres(low))
	s = s.Add("each swap acts as a drain of", "d - returned", stepLitres(drained)+" - "+stepLitres(l.LineReturns), stepLitres(acts))
	return s.Add("to pour in all, level", "n·d + n × lost + kept once",
		times+stepLitres(drained)+" + "+stepLitres(low)+" + "+stepLitres(l.KeptOnce),
		stepLitres(lossesTimes(drained, n).Add(low).Add(l.KeptOnce))), nil
}
