package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.delay;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.word;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;
import padward.design.Occupant;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;
import padward.handover.CautionForm;
import padward.unblock.move.DelayChange;
import padward.unblock.release.LostEndpoint;

/** The forms of prices and cautions, the same in every command. */
public final class PriceForm {
    private PriceForm() {}

    /** A price. */
    public static Form<Price> price() {
        var price = new Fields<Price>();
        price.needed("text", text(), PriceText::sentences).means("all of it in words");
        price.needed(
                        "losesPad",
                        texts(),
                        p -> p.ports().stream().map(Price.LosingPort::name).toList())
                .means("ports that lose their pads");
        price.needed("follows", list(follower()), p -> List.copyOf(p.follows()))
                .means("parts of the board that follow the signal");
        price.needed("drives", list(opponent()), p -> List.copyOf(p.drives()))
                .means("parts of the board that drive the pad");
        price.needed("obstacles", list(cleared()), p -> List.copyOf(p.obstacles()))
                .means("what is removed");
        price.needed("moved", list(moved()), p -> List.copyOf(p.moved()))
                .means("sinks whose delay changes because a net is rerouted");
        price.needed(
                        "losesSignal",
                        texts(),
                        p -> p.lost().stream().map(LostEndpoint::toText).toList())
                .means("endpoints and ports that lose their signal");
        return price.written();
    }

    private static <R> void addPart(
            Fields<R> to, Function<R, String> pad, Function<R, Attachment> part) {
        List<String> kinds = Stream.of(AttachmentKind.values()).map(AttachmentKind::label).toList();
        to.needed("pad", text(), pad).means("the pad");
        to.needed("kind", word(kinds), r -> part.apply(r).kind().label()).means("what it is");
        to.needed("part", text(), r -> part.apply(r).name()).means("its name on the board");
        to.needed("pin", text(), r -> part.apply(r).pin()).means("its pin");
    }

    private static Form<Price.Follower> follower() {
        var follower = new Fields<Price.Follower>();
        addPart(follower, Price.Follower::pad, Price.Follower::part);
        follower.needed("net", text(), Price.Follower::net).means("what it will follow");
        return follower.written();
    }

    private static Form<Price.Opponent> opponent() {
        var opponent = new Fields<Price.Opponent>();
        addPart(opponent, Price.Opponent::pad, Price.Opponent::part);
        return opponent.written();
    }

    private static Form<Price.Cleared> cleared() {
        var cleared = new Fields<Price.Cleared>();
        addOccupant(cleared, Price.Cleared::occupant);
        cleared.needed(
                        "consequence",
                        Kinds.choice(Price.Fate.values(), Price.Fate::label),
                        Price.Cleared::fate)
                .means("what its removal means");
        return cleared.written();
    }

    private static Form<DelayChange> moved() {
        var moved = new Fields<DelayChange>();
        moved.needed("net", text(), DelayChange::net).means("the net");
        moved.needed("sink", text(), DelayChange::sink).means("its sink");
        moved.needed("before_ps", delay(), DelayChange::before).means("delay before");
        moved.needed("after_ps", delay(), DelayChange::after).means("delay after");
        return moved.written();
    }

    /** Adds what uses something. */
    static <R> void addOccupant(Fields<R> to, Function<R, Occupant> occupant) {
        to.needed(
                        "kind",
                        word(List.of("cell", "net")),
                        r -> occupant.apply(r) instanceof Occupant.ByCell ? "cell" : "net")
                .means("what it is");
        to.needed("name", text(), r -> occupant.apply(r).name()).means("its name");
    }

    /** Adds the cautions about one pad, and the line under them. */
    static <R> void addCautions(Fields<R> to, Function<R, Optional<List<Caution>>> cautions) {
        to.maybe("cautions", list(CautionForm.ofOnePad()), cautions::apply)
                .means("to be read before anything is driven");
        to.maybe("footer", text(), r -> cautions.apply(r).map(c -> Cautions.FOOTER))
                .means("what stands above all cautions");
    }

    /** Adds the cautions about several pads, and the line under them. */
    public static <R> void addShared(
            Fields<R> to, Function<R, Optional<? extends Collection<Cautions.Shared>>> cautions) {
        to.maybe(
                        "cautions",
                        list(CautionForm.ofPads()),
                        r -> cautions.apply(r).map(all -> List.copyOf(all)))
                .means("to be read before anything is driven");
        to.maybe("footer", text(), r -> cautions.apply(r).map(c -> Cautions.FOOTER))
                .means("what stands above all cautions");
    }
}
