//! Cells and links of a wall while it warms up: one time step at a time.

use super::conductivity::ConductivityCurve;
use super::error::PhysicsError;
use super::layers::{Layer, Path};
use super::transient::WarmUpCase;

/// Share of a step that each of its two stages is implicit over: 1 − 1/√2.
const STAGE: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;

/// Coefficient that stands for none at all, W/(m²·K); keeps the surface temperature a number.
const INSULATED: f64 = 1e-9;

/// Slice of a solid layer.
#[derive(Debug, Clone, Copy)]
struct Cell {
    /// J/K.
    capacity: f64,
    temperature: f64,
    /// Temperature one step ago.
    before: f64,
    /// Temperature the coefficients are taken at.
    carried: f64,
    /// Temperature found by the stage being solved.
    stage: f64,
    /// Right side divided out by the forward sweep.
    swept: f64,
    /// Coupling to the next cell divided out by the forward sweep.
    coupling: f64,
}

/// Half a cell between its centre and its face.
#[derive(Debug, Clone, Copy)]
struct Half<'a> {
    curve: &'a ConductivityCurve,
    factor: f64,
}

impl Half<'_> {
    /// K/W.
    fn resistance(&self, temperature: f64) -> f64 {
        1.0 / (self.factor * self.curve.at(temperature))
    }
}

/// What lies between two neighbouring cells, or a cell and an end.
#[derive(Debug, Clone, Copy)]
enum Between<'a> {
    /// Two cells of one layer.
    Layer(Half<'a>),
    /// A boundary of layers. No `from` is the hot face, no `to` is the outside air.
    Boundary {
        from: Option<Half<'a>>,
        gap: Option<&'a Path>,
        to: Option<Half<'a>>,
    },
}

#[derive(Debug, Clone, Copy)]
struct Link<'a> {
    between: Between<'a>,
    /// W/K.
    conductance: f64,
    /// Heat flow outward, W.
    flow: f64,
    /// Faces of the boundary as last found, K; the same if there is no gap.
    inner_face: f64,
    outer_face: f64,
    /// K/W from the inner node to its face and from the outer face to the outer node.
    from_resistance: f64,
    to_resistance: f64,
}

/// What one step moved.
pub(crate) struct Step {
    /// Into the hot face, J.
    pub heat_taken: f64,
    /// Into the air, J.
    pub heat_lost: f64,
    /// Heat flow into the air at the end of the step, W.
    pub loss: f64,
}

/// The wall cut into cells. Link `i` lies before cell `i`; the last link leads outside.
pub(crate) struct Grid<'a> {
    cells: Vec<Cell>,
    links: Vec<Link<'a>>,
    depths: Vec<f64>,
    is_face: Vec<bool>,
    hot: f64,
    last_step: f64,
    lowest: f64,
    highest: f64,
}

impl<'a> Grid<'a> {
    pub(crate) fn new(case: &WarmUpCase<'a>, per_layer: u32) -> Result<Grid<'a>, PhysicsError> {
        let stack = case.stack;
        let shape = stack.shape();
        let hot = case.hot_face.at(case.start, 0.0);
        let air = case.outside.air_temperature();
        let ends = [case.start, case.hot_face.temperature, air];
        let cells = stack.layers().len() * per_layer as usize;
        let stations = cells + stack.layers().len() + 1;
        let mut grid = Grid {
            cells: Vec::with_capacity(cells),
            links: Vec::with_capacity(cells + 1),
            depths: with_room(0.0, stations),
            is_face: with_room(true, stations),
            hot,
            last_step: 0.0,
            lowest: ends.into_iter().fold(f64::INFINITY, f64::min),
            highest: ends.into_iter().fold(f64::NEG_INFINITY, f64::max),
        };
        let (mut depth, mut from, mut gap) = (0.0, None, None);
        let layers = stack.layers().iter().zip(stack.paths()).zip(case.stores);
        for ((layer, path), store) in layers {
            let end = depth + layer.thickness();
            match layer {
                Layer::StillAir { .. } => {
                    if gap.is_some() {
                        return Err(PhysicsError::Impossible {
                            quantity: "stack of layers",
                            reason: "two air gaps side by side need a sheet between them",
                        });
                    }
                    gap = Some(path);
                }
                Layer::Solid { conductivity, .. } => {
                    let half = |inner: f64, outer: f64| Half {
                        curve: conductivity,
                        factor: shape.conduction_factor(inner, outer),
                    };
                    let width = (end - depth) / f64::from(per_layer);
                    let mut centre_before = None;
                    for i in 0..per_layer {
                        let inner = depth + f64::from(i) * width;
                        let centre = inner + 0.5 * width;
                        let between = match centre_before {
                            Some(before) => Between::Layer(half(before, centre)),
                            None => Between::Boundary {
                                from,
                                gap: gap.take(),
                                to: Some(half(inner, centre)),
                            },
                        };
                        let volume = shape.volume_between(inner, inner + width);
                        let capacity = volume * store.density * store.heat_capacity;
                        grid.push_link(between, case.start);
                        grid.push_cell(centre, capacity, case.start);
                        centre_before = Some(centre);
                    }
                    from = Some(half(end - 0.5 * width, end));
                }
            }
            depth = end;
            grid.depths.push(depth);
            grid.is_face.push(true);
        }
        if grid.cells.is_empty() {
            return Err(PhysicsError::Impossible {
                quantity: "stack of layers",
                reason: "warming up needs a solid layer",
            });
        }
        let outward = Between::Boundary {
            from,
            gap,
            to: None,
        };
        grid.push_link(outward, case.start);
        Ok(grid)
    }

    /// Depth of every station, m.
    pub(crate) fn depths(&self) -> &[f64] {
        &self.depths
    }

    /// Which stations are faces.
    pub(crate) fn is_face(&self) -> &[bool] {
        &self.is_face
    }

    /// Adds the temperature of every station to `row`, in the order of [`depths`](Self::depths).
    pub(crate) fn record(&self, row: &mut Vec<f64>) {
        let mut cells = self.cells.iter();
        for (i, link) in self.links.iter().enumerate() {
            if let Between::Boundary { gap, .. } = link.between {
                row.push(if i == 0 { self.hot } else { link.inner_face });
                if gap.is_some() {
                    row.push(link.outer_face);
                }
            }
            if let Some(cell) = cells.next() {
                row.push(cell.temperature);
            }
        }
    }

    /// Sum of each cell's capacity times the resistance on its hot side, s: a little more than the slowest time
    /// constant. Uses the conductivity half way between start and end.
    pub(crate) fn delay(&self) -> f64 {
        let middle = 0.5 * (self.lowest + self.highest);
        let (mut resistance, mut delay) = (0.0, 0.0);
        for (cell, link) in self.cells.iter().zip(&self.links) {
            resistance += match link.between {
                Between::Layer(half) => half.resistance(middle),
                Between::Boundary { from, gap, to } => {
                    let halves = [from, to].into_iter().flatten();
                    halves.map(|half| half.resistance(middle)).sum::<f64>()
                        + gap.map_or(0.0, |path| 1.0 / path.conductance(middle, middle))
                }
            };
            delay += resistance * cell.capacity;
        }
        delay
    }

    /// Takes one step of `step` seconds from `time`.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    pub(crate) fn advance(&mut self, case: &WarmUpCase, time: f64, step: f64) -> Step {
        self.set_coefficients(case, STAGE * step);
        for cell in &mut self.cells {
            cell.swept = cell.capacity * cell.temperature;
        }
        self.hot = case.hot_face.at(case.start, time + STAGE * step);
        self.solve_stage(case, STAGE * step);
        let early = self.end_flows();

        // What the first stage's flows would do over the rest of the step is known; the second adds its own share.
        for (cell, (into, out)) in self.cells.iter_mut().zip(pairs(&self.links)) {
            cell.swept =
                cell.capacity * cell.temperature + (1.0 - STAGE) * step * (into.flow - out.flow);
        }
        self.set_coefficients(case, step);
        self.hot = case.hot_face.at(case.start, time + step);
        self.solve_stage(case, STAGE * step);
        let late = self.end_flows();
        for cell in &mut self.cells {
            cell.before = cell.temperature;
            cell.temperature = cell.stage;
        }
        self.last_step = step;
        let over = |early: f64, late: f64| step * ((1.0 - STAGE) * early + STAGE * late);
        Step {
            heat_taken: over(early.0, late.0),
            heat_lost: over(early.1, late.1),
            loss: late.1,
        }
    }

    /// Heat flow in at the hot face and out at the surface, W.
    fn end_flows(&self) -> (f64, f64) {
        let flow = |link: Option<&Link<'_>>| link.map_or(0.0, |link| link.flow);
        (flow(self.links.first()), flow(self.links.last()))
    }

    /// Sets every link's conductance for temperatures carried `ahead` seconds forward.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn set_coefficients(&mut self, case: &WarmUpCase, ahead: f64) {
        // After a step cut short the past says little about a long one to come.
        let factor = if self.last_step > 0.0 {
            (ahead / self.last_step).min(2.0)
        } else {
            0.0
        };
        for cell in &mut self.cells {
            let carried = cell.temperature + factor * (cell.temperature - cell.before);
            // Said by hand: as the standard library says it, it costs WebAssembly two calls for each cell.
            cell.carried = if carried > self.highest {
                self.highest
            } else if carried > self.lowest {
                carried
            } else {
                self.lowest
            };
        }
        let mut inner = self.hot;
        // Of the conductivity of the layer up to the inner cell.
        let mut integral = None;
        let mut cells = self.cells.iter();
        for link in &mut self.links {
            let outer = cells.next().map(|cell| cell.carried);
            link.set_coefficient(inner, outer, &mut integral, case);
            inner = outer.unwrap_or(inner);
        }
    }

    /// Solves (C + θ L) T = C T₀ + known, with the known side waiting in `swept`, and finds the flows.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn solve_stage(&mut self, case: &WarmUpCase, theta: f64) {
        let air = case.outside.air_temperature();
        let (mut coupling, mut swept) = (0.0, self.hot);
        let last = self.cells.len();
        let pairs = pairs(&self.links).enumerate();
        for (cell, (i, (into, out))) in self.cells.iter_mut().zip(pairs) {
            let from_before = theta * into.conductance;
            let to_next = theta * out.conductance;
            let mut known = cell.swept + from_before * swept;
            let diagonal = cell.capacity + from_before * (1.0 - coupling) + to_next;
            if i + 1 == last {
                known += to_next * air;
                cell.coupling = 0.0;
            } else {
                cell.coupling = to_next / diagonal;
            }
            cell.swept = known / diagonal;
            (coupling, swept) = (cell.coupling, cell.swept);
        }
        let mut next = 0.0;
        for cell in self.cells.iter_mut().rev() {
            cell.stage = cell.swept + cell.coupling * next;
            next = cell.stage;
        }
        let mut inner = self.hot;
        let mut cells = self.cells.iter();
        for link in &mut self.links {
            let outer = cells.next().map_or(air, |cell| cell.stage);
            link.flow = link.conductance * (inner - outer);
            link.inner_face = inner - link.flow * link.from_resistance;
            link.outer_face = outer + link.flow * link.to_resistance;
            inner = outer;
        }
    }

    fn push_link(&mut self, between: Between<'a>, start: f64) {
        self.links.push(Link {
            between,
            conductance: 0.0,
            flow: 0.0,
            inner_face: start,
            outer_face: start,
            from_resistance: 0.0,
            to_resistance: 0.0,
        });
    }

    fn push_cell(&mut self, depth: f64, capacity: f64, start: f64) {
        self.depths.push(depth);
        self.is_face.push(false);
        self.cells.push(Cell {
            capacity,
            temperature: start,
            before: start,
            carried: start,
            stage: start,
            swept: 0.0,
            coupling: 0.0,
        });
    }
}

/// A list that begins with this, with room for more.
fn with_room<T>(first: T, most: usize) -> Vec<T> {
    let mut list = Vec::with_capacity(most);
    list.push(first);
    list
}

impl Link<'_> {
    /// `outer` is `None` for the link to the air.
    #[cfg_attr(hearthplan_site, optimize(speed))]
    fn set_coefficient(
        &mut self,
        inner: f64,
        outer: Option<f64>,
        integral: &mut Option<f64>,
        case: &WarmUpCase,
    ) {
        match self.between {
            Between::Layer(half) => {
                let outer = outer.unwrap_or(inner);
                let mean = half.curve.mean_onwards(inner, outer, integral);
                self.conductance = half.factor * mean;
            }
            Between::Boundary { from, gap, to } => {
                *integral = None;
                self.from_resistance = from.map_or(0.0, |half| half.resistance(inner));
                self.to_resistance = match (to, outer) {
                    (Some(half), Some(temperature)) => half.resistance(temperature),
                    _ => {
                        let coefficient = case.outside.coefficient(case.stack, self.outer_face);
                        1.0 / (coefficient.max(INSULATED) * case.stack.outer_area())
                    }
                };
                let across = gap.map_or(0.0, |path| {
                    1.0 / path.conductance(self.inner_face, self.outer_face)
                });
                self.conductance = 1.0 / (self.from_resistance + across + self.to_resistance);
            }
        }
    }
}

/// Each link with the one after it.
fn pairs<'l, 'a>(links: &'l [Link<'a>]) -> impl Iterator<Item = (&'l Link<'a>, &'l Link<'a>)> {
    links.iter().zip(links.iter().skip(1))
}
