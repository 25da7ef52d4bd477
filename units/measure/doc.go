// Package measure answers: how sure is that figure?
//
// A [Reading] is a value that remembers its doubt: not one lump of
// "plus or minus", but a list of physical causes (this jug's scale, that
// probe's offset, the parallax of this one look at the line) with how much of
// each went in. A [Cause] has a stable id, and two readings that share a cause
// share its error. So the sums come out right with nothing to configure:
//
//   - drain and refill measured in one jug: the jug's scale error is in both,
//     with opposite signs in the balance, and cancels;
//   - five drains measured in one jug: its scale error adds up five times
//     instead of averaging out.
//
// The instruments ([Jug], [Cylinder], [Scale], [ContactProbe], [BoxSensor],
// [Infrared], [TorqueTool]) turn what is written on the label into causes.
// [Propagate] carries doubt through a formula, [Budget] shows where it came
// from, [Decide] says whether a limit is shown to be kept at a risk you state,
// [Agree] whether two instruments can both be right, and [Simulate] and
// [Mixture] give intervals where a formula is too bent for straight lines.
//
// Terms follow the Guide to the expression of uncertainty in measurement (JCGM
// 100:2008) and its supplements (JCGM 101:2008, JCGM 106:2012): standard
// uncertainty u, coverage factor k, expanded uncertainty U = k·u, degrees of
// freedom.
//
// Bare float64 readings carry no unit of their own; throughout this module they
// are in litres, kilograms, newton metres, metres, and kelvin for points on the
// temperature scale. [Measured] and [Temperature] carry their unit in the type.
package measure
