package line

// stands puts on the line what stands there at the start of the lot in work, and takes off the list what is done of it.
func (b *builder) stands() {
	st := &b.s.Run.Starts
	ls := b.l.lots
	if st.Lot == "" {
		return
	}
	x := &ls.list[0]
	perCarrier := int64(b.s.ProductNamed(x.product).Product.PacksPerCarrier)
	x.standing = int64(st.Infeed+st.Drain)*perCarrier + int64(st.Table)
	if st.Left != nil {
		x.packs = int64(*st.Left) + x.standing
	}
	if x.packs == 0 || x.standing > x.packs {
		b.fail("run.starts: nothing of lot %s is left to be treated, or more stands on the line than the lot has", x.name)
		return
	}
	if ls.any {
		ls.choose(0)
	}
	no := x.no
	for range int64(st.Table) {
		b.stand("table", unit{no: no, n: 1}, false)
		no++
	}
	for range int64(st.Drain) {
		b.stand("drain", unit{no: no, n: int32(perCarrier)}, true)
		no++
	}
	for range int64(st.Infeed) {
		b.stand("infeed", unit{no: no, n: int32(perCarrier)}, true)
		no++
	}
	if f := b.l.stretchs[0].feed.lots; x.toCome() > 0 {
		f.n = no - x.no
	} else {
		f.at = 1 // all of it stands on the line
	}
}

// stand puts one unit of the lot in work into places. When its time out of the chilled store began is not known.
func (b *builder) stand(places string, u unit, carrier bool) {
	l := b.l
	in := b.placesNamed(places)
	if in == nil {
		b.fail("run.starts: no station takes from the %s", places)
		return
	}
	if int64(in.q.n) >= in.places {
		b.fail("run.starts: the %s has %d places only", places, in.places)
		return
	}
	u.born, u.out, u.box, u.lot = none, none, none, 1
	if carrier && l.returns == nil {
		l.outside++
	}
	x := &l.lots.list[0]
	x.begun = 0
	for _, t := range l.lots.turns {
		if t.station.in == in && t.places == nil {
			break
		}
		if t.places == in { // counted when it is laid there
			continue
		}
		g := &x.legs[t.no]
		g.in += int64(u.n)
		g.gone += int64(u.n)
		g.past += int64(u.n)
	}
	l.in += int64(u.n)
	in.take(u)
}

// standing is how many of the carriers owned stand full on the line at the start.
func (b *builder) standing() int64 {
	st := &b.s.Run.Starts
	if st.Lot == "" {
		return 0
	}
	return int64(st.Infeed + st.Drain)
}
