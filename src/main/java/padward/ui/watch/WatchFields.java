package padward.ui.watch;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.watch.request.CircuitRequest;
import padward.watch.request.CircuitSort;
import padward.watch.request.CircuitSort.Part;

/** The fields of the panel, as they are filled in. */
final class WatchFields {
    private final ObjectProperty<CircuitSort> sort =
            new SimpleObjectProperty<>(CircuitSort.TRIGGER);
    private final StringProperty nets = new SimpleStringProperty("");
    private final StringProperty when = new SimpleStringProperty("");
    private final StringProperty reset = new SimpleStringProperty("");
    private final StringProperty steer = new SimpleStringProperty("");
    private final IntegerProperty divisor = new SimpleIntegerProperty(16);
    private final IntegerProperty cycles = new SimpleIntegerProperty(16);
    private final BooleanProperty registered = new SimpleBooleanProperty(true);
    private final BooleanProperty mayMove = new SimpleBooleanProperty();
    private final StringProperty clock = new SimpleStringProperty("");
    private final StringProperty pads = new SimpleStringProperty("");
    private final StringProperty netlist = new SimpleStringProperty("");
    private final StringProperty mapping = new SimpleStringProperty("");
    private final StringProperty top = new SimpleStringProperty("");
    private final StringProperty bindings = new SimpleStringProperty("");

    /** Runs something whenever a field changes. */
    void addListener(Runnable changed) {
        sort.addListener((p, old, now) -> changed.run());
        List.of(nets, when, reset, steer, clock, pads, netlist, mapping, top, bindings)
                .forEach(t -> t.addListener((p, old, now) -> changed.run()));
        List.of(divisor, cycles).forEach(n -> n.addListener((p, old, now) -> changed.run()));
        registered.addListener((p, old, now) -> changed.run());
        mayMove.addListener((p, old, now) -> changed.run());
    }

    /** The circuit that they state; fields that do not belong to it are left out. */
    CircuitRequest request() {
        CircuitSort of = sort.get();
        Optional<Integer> number = Optional.empty();
        if (of.has(Part.DIVISOR)) {
            number = Optional.of(divisor.get());
        } else if (of.has(Part.CYCLES)) {
            number = Optional.of(cycles.get());
        }
        return new CircuitRequest(
                of,
                of.has(Part.NETS) ? words(nets.get()) : List.of(),
                text(of, Part.WHEN, when),
                text(of, Part.RESET, reset),
                of.has(Part.STEER) ? words(steer.get()) : List.of(),
                number,
                Optional.of(clock.get().strip()).filter(c -> !c.isEmpty()),
                registered.get());
    }

    /** The files of a netlist of the user's own, where that is asked for. */
    Optional<OwnFiles> own() {
        return sort.get() == CircuitSort.OWN
                ? Optional.of(
                        new OwnFiles(
                                netlist.get().strip(),
                                mapping.get().strip(),
                                top.get().strip(),
                                words(bindings.get())))
                : Optional.empty();
    }

    private static Optional<String> text(CircuitSort of, Part part, StringProperty field) {
        return Optional.of(field.get()).filter(t -> of.has(part) && !t.isBlank());
    }

    /** Texts between commas. */
    static List<String> words(String text) {
        return Arrays.stream(text.split(",")).map(String::strip).filter(w -> !w.isEmpty()).toList();
    }

    /** The names in the pads' field. */
    List<String> padNames() {
        return words(pads.get());
    }

    /** Adds nets to those that are observed, or a name to the condition where there are none. */
    void add(List<String> names) {
        if (!sort.get().has(Part.NETS)) {
            String more = names.stream().map(NameWords::escaped).collect(joining(" && "));
            when.set(joined(when.get().strip(), more));
            return;
        }
        List<String> all = new ArrayList<>(words(nets.get()));
        names.stream().filter(n -> !all.contains(n)).forEach(all::add);
        nets.set(String.join(", ", all));
    }

    /** A condition and more that must be true as well. */
    private static String joined(String condition, String more) {
        if (condition.isEmpty() || more.isEmpty()) {
            return condition + more;
        }
        if (Stream.of("&&", "||", "!", "(").anyMatch(condition::endsWith)) {
            return condition + " " + more; // what it waits for
        }
        return (condition.contains("||") ? "(" + condition + ")" : condition) + " && " + more;
    }

    ObjectProperty<CircuitSort> sortProperty() {
        return sort;
    }

    StringProperty netsProperty() {
        return nets;
    }

    StringProperty whenProperty() {
        return when;
    }

    StringProperty resetProperty() {
        return reset;
    }

    StringProperty steerProperty() {
        return steer;
    }

    IntegerProperty divisorProperty() {
        return divisor;
    }

    IntegerProperty cyclesProperty() {
        return cycles;
    }

    /** Whether a register stands before the pad. */
    BooleanProperty registeredProperty() {
        return registered;
    }

    /** Whether nets that are there may be rerouted, and cells relocated. */
    BooleanProperty mayMoveProperty() {
        return mayMove;
    }

    StringProperty clockProperty() {
        return clock;
    }

    StringProperty padsProperty() {
        return pads;
    }

    StringProperty netlistProperty() {
        return netlist;
    }

    StringProperty mappingProperty() {
        return mapping;
    }

    /** The top module; empty where the netlist has only one candidate. */
    StringProperty topProperty() {
        return top;
    }

    StringProperty bindingsProperty() {
        return bindings;
    }
}
