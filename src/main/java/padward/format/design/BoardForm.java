package padward.format.design;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.real;
import static padward.format.form.Kinds.text;
import static padward.format.form.Kinds.whole;
import static padward.format.form.Kinds.word;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.BoardHeader;
import padward.design.board.Levels;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.form.IntKind;
import padward.format.form.Schema;
import padward.format.json.FileHeader;
import padward.format.source.FileLimits;

/** The form of boards. */
final class BoardForm {
    private BoardForm() {}

    /**
     * The form of one board's file.
     *
     * @param pad how pads are named
     * @param packagePin how they are named by their pins of the package
     */
    static FileForm<Board> of(IntKind pad, IntKind packagePin) {
        var board = new Fields<Board>();
        board.constant("format", FileHeader.BOARD);
        var name = board.needed("name", name(), Board::name).means("name of the board");
        var note =
                board.optional("note", text(FileLimits.NOTE), "", Board::note).means("for people");
        var pads =
                board.needed("pads", list(wiring(pad, packagePin)), Board::wirings)
                        .means("what the board has on the pads");
        var headers =
                board.optional("headers", list(header()), List.of(), Board::headers)
                        .means("how the pins of headers are arranged; others are not drawn");
        return board.makesFile(() -> new Board(name.get(), note.get(), pads.get(), headers.get()));
    }

    private static Form<PadWiring> wiring(IntKind pad, IntKind packagePin) {
        var wiring = new Fields<PadWiring>();
        var byName =
                wiring.optional("pad", pad, Fabric.NOTHING, PadWiring::pad)
                        .means("full name of the pad");
        var byPin =
                wiring.optional("packagePin", packagePin, Fabric.NOTHING)
                        .means("its pin or ball of the package");
        var net =
                wiring.optional("net", word(), "", PadWiring::net)
                        .means("name of the board's net; otherwise none");
        var trace =
                wiring.stated(
                                "trace_mm",
                                real(0, FileLimits.TRACE_MM),
                                0.0,
                                PadWiring::traceMillimetres)
                        .means("length of the trace; otherwise 0");
        var layer =
                wiring.optional(
                                "layer",
                                choice(PadWiring.Layer.values()),
                                PadWiring.Layer.OUTER,
                                PadWiring::layer)
                        .means(
                                "`outer` or `inner`: where on the board the trace runs; otherwise `outer`");
        var load =
                wiring.optional("load_pf", real(0, FileLimits.LOAD_PF), 0.0, PadWiring::loadPf)
                        .means("capacitance of the trace and everything on it; otherwise unknown");
        var attached =
                wiring.stated("attached", list(attachment()), List.of(), PadWiring::attachments)
                        .means("what is on it");
        wiring.require(Schema.oneOf(List.of(Schema.having(byName), Schema.having(byPin))));
        Set<Integer> wired = new HashSet<>();
        return wiring.makes(
                in -> {
                    if (byName.isGiven() == byPin.isGiven()) {
                        throw in.fault(
                                "either \"pad\" or \"packagePin\"",
                                byName.isGiven() ? "both" : "neither");
                    }
                    int index = byName.isGiven() ? byName.get() : byPin.get();
                    if (!wired.add(index)) {
                        throw in.fault("each pad once", "a pad that has an entry already");
                    }
                    return new PadWiring(
                            index, net.get(), trace.get(), layer.get(), load.get(), attached.get());
                });
    }

    private static Form<Attachment> attachment() {
        var attached = new Fields<Attachment>();
        var kind =
                attached.needed("kind", choice(AttachmentKind.values()), Attachment::kind)
                        .means("what it is");
        var name = attached.needed("name", name(), Attachment::name).means("name of the part");
        var pin =
                attached.optional("pin", word(), "", Attachment::pin)
                        .means("its pin; may be left out if it has only one");
        var supply =
                attached.optional(
                                "millivolts",
                                whole(0, FileLimits.ELECTRIC),
                                0,
                                a -> a.levels().millivolts())
                        .means("supply of the part, or the rail that a resistor pulls to");
        var most =
                attached.optional(
                                "most_mv",
                                whole(0, FileLimits.ELECTRIC),
                                0,
                                a -> a.levels().mostMillivolts())
                        .means("greatest voltage that the pin tolerates");
        var series =
                attached.optional(
                                "series_ohms",
                                whole(0, FileLimits.OHMS),
                                0,
                                a -> a.levels().seriesOhms())
                        .means("resistor between the pin and the net");
        var farads =
                attached.optional("pf", real(0, FileLimits.LOAD_PF), 0.0, Attachment::picofarads)
                        .means("its capacitance, pF; otherwise unknown");
        return attached.makes(
                () ->
                        new Attachment(
                                kind.get(),
                                name.get(),
                                pin.get(),
                                new Levels(supply.get(), most.get(), series.get()),
                                farads.get()));
    }

    private static Form<BoardHeader> header() {
        var header = new Fields<BoardHeader>();
        var name = header.needed("name", name(), BoardHeader::name).means("name of the header");
        var pins =
                header.needed("pins", whole(1, FileLimits.HEADER_PINS), BoardHeader::pins)
                        .means("number of its pins");
        var rows = header.needed("rows", whole(1, 2), BoardHeader::rows).means("rows of pins");
        var numbering =
                header.needed(
                                "numbering",
                                choice(BoardHeader.Numbering.values()),
                                BoardHeader::numbering)
                        .means(
                                "`across`: pin 2 faces pin 1; `along`: row after row; `around`: along"
                                        + " one row and back along the other");
        var seen =
                header.needed("seen", choice(BoardHeader.Side.values()), BoardHeader::seen)
                        .means("side of the board from which pin 1 is at the lower left");
        var grounds =
                header.optional("grounds", list(name()), List.of(), BoardHeader::grounds)
                        .means("its ground pins");
        return header.makes(
                () ->
                        new BoardHeader(
                                name.get(),
                                pins.get(),
                                rows.get(),
                                numbering.get(),
                                seen.get(),
                                grounds.get()));
    }
}
