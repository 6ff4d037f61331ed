package padward.ui.group;

import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableMap;
import padward.breakout.Bus;
import padward.breakout.Matched;
import padward.breakout.Prospect;
import padward.design.Design;
import padward.design.Trial;
import padward.timing.Outside;
import padward.ui.model.ExplorerModel;
import padward.ui.model.GroupText;
import padward.ui.model.OneJob;
import padward.ui.model.TrialDesk;
import padward.ui.scene.Opened;

/** Several nets at once: what could be, what is pinned, what is laid. No control. */
public final class GroupModel {
    private final ExplorerModel model;
    private final OneJob job;
    private final StringProperty nets = new SimpleStringProperty("");
    private final StringProperty pads = new SimpleStringProperty("any");
    private final ObjectProperty<Bus.Aim> aim = new SimpleObjectProperty<>(Bus.Aim.SUM);
    private final IntegerProperty tolerancePs = new SimpleIntegerProperty(150);
    private final ObjectProperty<Optional<Prospect>> prospect =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObservableMap<Integer, Integer> pinned = FXCollections.observableHashMap();
    private final ObjectProperty<Optional<Bus>> bus = new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Matched>> matched =
            new SimpleObjectProperty<>(Optional.empty());

    /** A group of nets of whatever design is open. */
    public GroupModel(ExplorerModel model) {
        this.model = model;
        this.job = new OneJob(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> putAway());
    }

    private void putAway() {
        job.cancel();
        pinned.clear();
        matched.set(Optional.empty());
        bus.set(Optional.empty());
        prospect.set(Optional.empty());
    }

    /** Prices all pairs of what is typed, and lays the group. */
    void look() {
        Optional<Opened> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            model.notes().tell(this, "Open a design first (Ctrl+O).");
            return;
        }
        putAway();
        Design design = opened.get().design();
        String wanted = nets.get();
        String allowed = pads.get();
        Bus.Aim by = aim.get();
        record Looked(Prospect prospect, Bus bus) {}
        job.start(
                "Pricing the group",
                progress -> {
                    Prospect seen =
                            Prospect.of(
                                    design,
                                    GroupText.nets(design, wanted),
                                    GroupText.pads(design, allowed),
                                    by,
                                    progress);
                    seen.complete(progress);
                    return new Looked(seen, seen.lay(Map.of(), progress));
                },
                looked -> {
                    prospect.set(Optional.of(looked.prospect()));
                    bus.set(Optional.of(looked.bus()));
                });
    }

    /** Pins a net to a pad, by their places; or takes the pin out when it is there. */
    void pin(int net, int pad) {
        if (prospect.get().isEmpty()) {
            return;
        }
        if (Integer.valueOf(pad).equals(pinned.get(net))) {
            pinned.remove(net);
        } else {
            pinned.values().removeIf(p -> p == pad);
            pinned.put(net, pad);
        }
        Prospect seen = prospect.get().get();
        Map<Integer, Integer> pins = Map.copyOf(pinned);
        matched.set(Optional.empty());
        job.start(
                "Laying the group",
                progress -> seen.lay(pins, progress),
                laid -> bus.set(Optional.of(laid)));
    }

    /** Makes the ways agree. */
    void match() {
        if (bus.get().isEmpty() || bus.get().get().lines().isEmpty()) {
            return;
        }
        Design design = prospect.get().orElseThrow().design();
        Bus laid = matched.get().map(Matched::before).orElse(bus.get().get());
        int tolerance = tolerancePs.get();
        job.start(
                "Matching the ways",
                progress -> Matched.of(design, laid, tolerance, Outside.NONE, progress),
                result -> {
                    matched.set(Optional.of(result));
                    bus.set(Optional.of(result.after()));
                });
    }

    /** Keeps the group as it is laid: the design is shown with it from now on. */
    void keep() {
        if (bus.get().isEmpty() || bus.get().get().lines().isEmpty()) {
            return;
        }
        Bus laid = bus.get().get();
        Opened opened = model.openedProperty().get().orElseThrow();
        TrialDesk.Kept kept =
                new TrialDesk.Kept(
                        OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString(),
                        nets.get(),
                        pads.get(),
                        laid.edits());
        job.start(
                "Keeping the group",
                progress -> opened.with(Trial.of(opened.design(), laid.edits())),
                shown -> model.design().keep(kept, shown));
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

    ReadOnlyObjectProperty<Optional<Prospect>> prospectProperty() {
        return prospect;
    }

    ObservableMap<Integer, Integer> pinned() {
        return pinned;
    }

    ReadOnlyObjectProperty<Optional<Bus>> busProperty() {
        return bus;
    }

    ReadOnlyObjectProperty<Optional<Matched>> matchedProperty() {
        return matched;
    }

    ReadOnlyBooleanProperty busyProperty() {
        return job.busyProperty();
    }
}
