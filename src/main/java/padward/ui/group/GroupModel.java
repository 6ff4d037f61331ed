package padward.ui.group;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import javafx.beans.binding.BooleanBinding;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.StringProperty;
import javafx.beans.value.ObservableBooleanValue;
import javafx.collections.FXCollections;
import javafx.collections.ObservableMap;
import padward.base.Progress;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.ask.WantedDriver;
import padward.breakout.group.Bus;
import padward.breakout.group.MatchedGroup;
import padward.breakout.group.RouteMatrix;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Delay;
import padward.format.ledger.EntrySigning;
import padward.timing.ExternalLineDelay;
import padward.timing.PairSkew;
import padward.ui.design.OpenDesign;
import padward.ui.model.GroupFieldsParser;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;
import padward.ui.model.WorkState;
import padward.ui.work.JobSlot;

/** Several nets at once: all pairs of nets and pads, the pinned ones, the routed group. */
public final class GroupModel {
    private final WindowModel model;
    private final CalibrationModel calibration;
    private final JobSlot job;

    /** Apart from the other, so that a fault in a field interrupts nothing. */
    private final JobSlot reading;

    private final StringProperty nets;
    private final StringProperty pads;
    private final ObjectProperty<Bus.Aim> aim = new SimpleObjectProperty<>(Bus.Aim.MOST);
    private final BooleanProperty mayDisconnect = new SimpleBooleanProperty();
    private final BooleanProperty accepted = new SimpleBooleanProperty();
    private final IntegerProperty tolerancePs = new SimpleIntegerProperty(150);
    private final ObjectProperty<Optional<RouteMatrix>> matrix =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObservableMap<Integer, Integer> pinned = FXCollections.observableHashMap();

    /** The pins of the group that is shown; those of a stopped search are none of them. */
    private Map<Integer, Integer> routedPins = Map.of();

    /** Whether everything about the group is there, not only its routes; also without a group. */
    private final BooleanProperty whole = new SimpleBooleanProperty(true);

    private final BooleanBinding growing;
    private final ReadOnlyBooleanWrapper asAsked = new ReadOnlyBooleanWrapper(true);
    private Optional<Asked> asked = Optional.empty();

    /** The last group that was routed on the open design, also while another is. */
    private Optional<RouteMatrix> known = Optional.empty();

    private final ObjectProperty<Optional<Bus>> bus = new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<MatchedGroup>> matched =
            new SimpleObjectProperty<>(Optional.empty());

    /** A group of nets of the open design. */
    public GroupModel(WindowModel model) {
        this.model = model;
        this.nets = model.groupNetsProperty();
        this.pads = model.groupPadsProperty();
        this.job = new JobSlot(model.jobs(), this);
        this.reading = new JobSlot(model.jobs(), this);
        this.growing = whole.not().and(job.busyProperty());
        model.openedProperty().addListener((p, old, now) -> forget());
        nets.addListener((p, old, now) -> compareFields());
        pads.addListener((p, old, now) -> compareFields());
        mayDisconnect.addListener((p, old, now) -> compareFields());
        bus.addListener((p, old, now) -> acceptOnly(old, now));
        this.calibration = new CalibrationModel(model, this);
    }

    /** What was accepted stays so while the group only gets explained. */
    private void acceptOnly(Optional<Bus> before, Optional<Bus> now) {
        if (!before.map(Bus::edits).equals(now.map(Bus::edits))) {
            accepted.set(false);
        }
    }

    /** The calibration of lines on the group's pads. */
    CalibrationModel calibration() {
        return calibration;
    }

    /**
     * A group as it was asked for.
     *
     * @param nets text of the nets' field
     * @param pads text of the pads' field
     * @param mayDisconnect whether ports may lose their pads
     * @param on what was open
     */
    private record Asked(String nets, String pads, boolean mayDisconnect, WorkState on) {}

    private void compareFields() {
        asAsked.set(
                asked.filter(
                                a ->
                                        !a.nets().equals(nets.get())
                                                || !a.pads().equals(pads.get())
                                                || a.mayDisconnect() != mayDisconnect.get())
                        .isEmpty());
    }

    private void forget() {
        known = Optional.empty();
        clear();
    }

    private void clear() {
        reading.cancel();
        job.cancel();
        asked = Optional.empty();
        compareFields();
        routedPins = Map.of();
        pinned.clear();
        matched.set(Optional.empty());
        bus.set(Optional.empty());
        matrix.set(Optional.empty());
        whole.set(true);
    }

    /** Asks about all pairs of the nets and pads in the fields, and routes the group. */
    void route() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            model.notes().add(this, "Open a design first (Ctrl+O).");
            return;
        }
        Design design = opened.get().design();
        String wanted = nets.get();
        String allowed = pads.get();
        Asked fields =
                new Asked(
                        wanted, allowed, mayDisconnect.get(), model.design().state().orElseThrow());
        // What a field has wrong must not cost the group that is shown.
        reading.start(
                "Reading the nets and pads",
                progress ->
                        new Members(
                                GroupFieldsParser.nets(design, wanted),
                                GroupFieldsParser.pads(design, allowed)),
                members -> route(fields, members));
    }

    /** The nets and pads that the fields mean. */
    private record Members(List<Net> nets, List<Integer> pads) {}

    private void route(Asked fields, Members members) {
        clear();
        Design design = fields.on().opened().design();
        Bus.Aim by = aim.get();
        Bus.Ports ports = fields.mayDisconnect() ? Bus.Ports.MAY_DISCONNECT : Bus.Ports.KEEP;
        Optional<RouteMatrix> similar = known.filter(m -> m.isAbout(design, by, ports));
        record Routed(RouteMatrix matrix, Bus bus, boolean stopped) {}
        job.startWithSoFar(
                "Routing the group",
                progress -> {
                    RouteMatrix seen =
                            similar.flatMap(m -> changed(m, members, progress))
                                    .orElseGet(
                                            () ->
                                                    RouteMatrix.unsearched(
                                                            design,
                                                            members.nets(),
                                                            members.pads(),
                                                            by,
                                                            ports,
                                                            WantedDriver.NONE));
                    Bus routed = seen.routesOrSoFar(progress);
                    return new Routed(seen, routed, progress.cancelled());
                },
                result -> {
                    asked = Optional.of(fields);
                    compareFields();
                    known = Optional.of(result.matrix());
                    whole.set(result.stopped());
                    matrix.set(known);
                    bus.set(Optional.of(result.bus()));
                    goOn();
                });
    }

    /**
     * Adds to the group that is shown what is not needed to use it: what lets one more out, and the
     * answers of all pairs.
     */
    private void goOn() {
        if (whole.get() || matrix.get().isEmpty() || bus.get().isEmpty()) {
            return;
        }
        RouteMatrix seen = matrix.get().get();
        Optional<Bus> shown = bus.get();
        job.startWithSoFar(
                "Explaining the group",
                progress -> {
                    Bus explained = seen.explained(shown.get(), progress);
                    complete(seen, progress);
                    return explained;
                },
                explained -> {
                    // Matching again begins with the group before, which has the same proof.
                    matched.set(matched.get().map(m -> m.explained(explained)));
                    bus.set(Optional.of(explained));
                    whole.set(true);
                });
    }

    private static Optional<RouteMatrix> changed(
            RouteMatrix earlier, Members members, Progress progress) {
        try {
            return Optional.of(earlier.changedTo(members.nets(), members.pads(), progress));
        } catch (CancellationException stopped) {
            return Optional.empty();
        }
    }

    /** The answers of all pairs; of those that a stop keeps from being asked, none is shown. */
    private static void complete(RouteMatrix matrix, Progress progress) {
        try {
            matrix.complete(progress);
        } catch (CancellationException stopped) {
            // The group is there; the table shows which pairs were not asked about.
        }
    }

    /**
     * Pins a net to a pad, given as row and column; removes the pin if it is there already. It is
     * marked at once, and unmarked if the search is stopped or finds no route.
     */
    void pin(int net, int pad) {
        if (matrix.get().isEmpty()) {
            return;
        }
        if (Integer.valueOf(pad).equals(pinned.get(net))) {
            pinned.remove(net);
        } else {
            pinned.values().removeIf(p -> p == pad);
            pinned.put(net, pad);
        }
        RouteMatrix seen = matrix.get().get();
        Map<Integer, Integer> pins = Map.copyOf(pinned);
        job.start(
                "Routing the group",
                progress -> {
                    Map<Integer, Integer> possible = new HashMap<>(pins);
                    possible.entrySet().removeIf(p -> !seen.isRoutable(p.getKey(), p.getValue()));
                    return new RoutedPins(seen.routes(possible, progress), possible);
                },
                result -> {
                    Bus routed = result.bus();
                    matched.set(Optional.empty());
                    routedPins = Map.copyOf(result.pins());
                    markRoutedPins();
                    bus.set(Optional.of(routed));
                    whole.set(whole.get() && !routed.isUnexplained());
                    goOn();
                },
                () -> {
                    markRoutedPins();
                    goOn();
                });
    }

    /** A group with the pins that are possible. */
    private record RoutedPins(Bus bus, Map<Integer, Integer> pins) {}

    private void markRoutedPins() {
        if (!pinned.equals(routedPins)) {
            pinned.clear();
            pinned.putAll(routedPins);
        }
    }

    /** Lengthens routes until the delays agree. */
    void match() {
        if (bus.get().isEmpty() || bus.get().get().lines().isEmpty()) {
            return;
        }
        Design design = matrix.get().orElseThrow().design();
        Bus routed = matched.get().map(MatchedGroup::before).orElse(bus.get().get());
        int tolerance = tolerancePs.get();
        ExternalLineDelay external = external();
        // What is matched is the group that is shown, without a pin whose search this replaces.
        markRoutedPins();
        job.start(
                "Matching the delays",
                progress ->
                        MatchedGroup.of(
                                design,
                                routed,
                                tolerance,
                                external,
                                PairSkew.USUAL_LOCAL_PERCENT,
                                progress),
                result -> {
                    matched.set(Optional.of(result));
                    bus.set(Optional.of(result.after()));
                    goOn();
                },
                this::goOn);
    }

    /** What is between the pins and the instrument; the leads are all of one length. */
    private ExternalLineDelay external() {
        return ExternalLineDelay.USUAL.withMetres(model.leadMetresProperty().get());
    }

    /** Length of the group's leads, metres; 0 when it is not stated. */
    ObjectProperty<Double> leadMetresProperty() {
        return model.leadMetresProperty();
    }

    /** Keeps the group as routed: the design is shown with it from now on. */
    void keep() {
        if (bus.get().isEmpty()
                || bus.get().get().lines().isEmpty()
                || !asAsked.get()
                || !isAccepted()) {
            return;
        }
        Asked about = asked.orElseThrow();
        List<Edit> edits = bus.get().get().edits();
        Outcome outcome = Outcome.of(about.on().opened().design(), edits);
        if (outcome instanceof Outcome.Applied applied) {
            LedgerEntry entry =
                    EntrySigning.unsigned(about.nets(), about.pads(), edits)
                            .accepting(PriceText.words(price().toAccept()));
            Optional<Double> length =
                    Optional.of(model.leadMetresProperty().get()).filter(m -> m > 0);
            model.design()
                    .keep(
                            about.on().version(),
                            LedgerLead.numbered(keptEntries(), entry, length),
                            about.on().opened().with(applied.design()));
        } else {
            List<String> reasons = ((Outcome.Refused) outcome).reasons();
            model.notes()
                    .add(this, "The group cannot be kept: " + String.join("; ", reasons) + ".");
        }
    }

    private List<LedgerEntry> keptEntries() {
        return model.keptProperty().get().map(KeptChanges::entries).orElse(List.of());
    }

    /** Whether more about the group that is shown is still being found out. */
    ObservableBooleanValue growing() {
        return growing;
    }

    /** Whether the fields say what was routed; also when nothing was. */
    ReadOnlyBooleanProperty asAskedProperty() {
        return asAsked.getReadOnlyProperty();
    }

    StringProperty netsProperty() {
        return nets;
    }

    StringProperty padsProperty() {
        return pads;
    }

    ObjectProperty<Bus.Aim> aimProperty() {
        return aim;
    }

    IntegerProperty toleranceProperty() {
        return tolerancePs;
    }

    /** Whether ports may lose their pads. */
    BooleanProperty mayDisconnectProperty() {
        return mayDisconnect;
    }

    /** Whether the user has accepted what the group does on the board. */
    BooleanProperty acceptedProperty() {
        return accepted;
    }

    /** What the routed group costs. */
    Price price() {
        return matrix.get().isPresent() && bus.get().isPresent()
                ? bus.get().get().price(matrix.get().get().design())
                : Price.NOTHING;
    }

    /** The pairs of lines of the routed group, the greatest skew at the instrument first. */
    List<Bus.Skew> skews() {
        return matrix.get().isPresent() && bus.get().isPresent()
                ? bus.get()
                        .get()
                        .skews(
                                matrix.get().get().design(),
                                external(),
                                PairSkew.USUAL_LOCAL_PERCENT)
                : List.of();
    }

    /** When a line of a routed group arrives at the instrument. */
    Delay atInstrument(Bus.Line line) {
        return line.atInstrument(matrix.get().orElseThrow().design(), external());
    }

    /** The cautions about the pads of the routed group. */
    List<Cautions.Shared> cautions() {
        return matrix.get().isPresent() && bus.get().isPresent()
                ? Cautions.ofEdits(matrix.get().get().design(), bus.get().get().edits())
                : List.of();
    }

    /** Whether the group can be kept: it costs nothing that must be accepted, or that is. */
    boolean isAccepted() {
        return accepted.get() || price().toAccept().isEmpty();
    }

    ReadOnlyObjectProperty<Optional<RouteMatrix>> matrixProperty() {
        return matrix;
    }

    ObservableMap<Integer, Integer> pinned() {
        return pinned;
    }

    ReadOnlyObjectProperty<Optional<Bus>> busProperty() {
        return bus;
    }

    ReadOnlyObjectProperty<Optional<MatchedGroup>> matchedProperty() {
        return matched;
    }

    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }
}
