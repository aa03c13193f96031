package result

// SchemaVersion is the version of the results file.
const SchemaVersion = 1

// Head is what every results file begins with, whatever kind of results it holds.
type Head struct {
	SchemaVersion  int    `json:"schema_version"`
	Kind           string `json:"kind"`
	Program        string `json:"program"`
	ProgramVersion string `json:"program_version"`
}

// NewHead is the head of results of a kind, without the program that wrote them: who calls the study knows its version.
func NewHead(kind string) Head { return Head{SchemaVersion: SchemaVersion, Kind: kind} }

// Top gives the head itself, so that whoever saves or draws results of any kind can read and complete it.
func (h *Head) Top() *Head { return h }

// Results are results of any kind: each type embeds a Head as its first field.
type Results interface{ Top() *Head }

// Of gives empty results of a kind, to be filled from a file; nil where no such kind is known.
func Of(kind string) Results {
	switch kind {
	case KindRun:
		return new(Run)
	case KindComparison:
		return new(Comparison)
	case KindCycle:
		return new(Cycle)
	case KindClaim:
		return new(Claim)
	case KindPayback:
		return new(Payback)
	case KindOrdering:
		return new(Ordering)
	case KindTimeFit:
		return new(TimeFit)
	case KindSizing:
		return new(Sizing)
	case KindStopFit:
		return new(StopFit)
	case KindBacktest:
		return new(Backtest)
	}
	return nil
}

// Kinds of results.
const (
	KindRun        = "run"
	KindComparison = "comparison"
	KindPayback    = "payback"
	KindOrdering   = "order"
	KindTimeFit    = "time_fit"
	KindCycle      = "cycle"
	KindClaim      = "claim"
	KindStopFit    = "stop_fit"
	KindBacktest   = "backtest"
)
