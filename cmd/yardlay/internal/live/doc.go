// Package live lays an open job while it changes. What an edit does not touch stays laid, by
// plan.Task.Key; what it touches is laid anew, and the search for what it was is cancelled. It knows
// no page: whoever shows the cloths asks for a Snapshot, and waits for the next.
//
// # What is shown, and when
//
// Each cloth is laid twice. A trial, with little work and the simplest bounds, gives the
// first layout of whatever lay, leftovers and bolts the cloth has, before any search
// begins. The laying proper is that of report.Run with the same options, so that what is
// there in the end is the same, byte by byte. Until then plan.Options.Better shows layouts as they get
// better: of a fold once all but its last stretch are laid, with leftovers once it is known
// how they are used. A purchase of several lengths, plain cloth beside a repeat, and one gown alone beside
// several are there at the end.
//
// What was laid for another text of the job stays in sight until there is something new, and is
// called old.
//
// # Processors, memory, attention
//
// All trials of an edit come first: a trial works on all processors, so that none is idle while the searches wait for
// the last of them (the chorus of testdata keeps two busy for 0.8 s). Then as many cloths are searched as there are
// processors, which they share out. Each search has its share of the memory for no-fit regions. Results of the last
// tasks are kept, so that what was taken back is there at once. When nobody has
// asked for a while searches are ended, and begun again when somebody does.
package live
