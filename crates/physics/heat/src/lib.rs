//! Lumped heat of a tank: mixing, walls, evaporation, heater, lamp and pump; and what topping up leaves behind.
//!
//! A [`Body`] is the glass with its water, a [`Room`] the air around it. [`Body::evaporation_l_per_day`],
//! [`Body::loss_w_per_k`], [`Body::heater_w`], [`Body::warmest_c`] and [`Cooling`] give a value with its range: the
//! coefficients of a room are never known well. [`mixed_c`] and [`Pour`] say what new water does to the temperature,
//! [`TopUp`] where hardness settles. Nothing here knows an animal or a limit of harm.
//!
//! ```
//! use heat::{Body, Cover, Room, mixed_c};
//! // 40 L at 12 °C into 47 L at 25 °C.
//! assert_eq!(mixed_c(&[(40.0, 12.0), (47.0, 25.0)]).map(|t| (10.0 * t).round() / 10.0), Some(19.0));
//! let tank = Body { length_m: 0.8, width_m: 0.35, depth_m: 0.4, glass_mm: 6.0, litres: 105.0, cover: Cover::Open, rippled: false };
//! let room = Room::at(21.0);
//! let a_day = tank.evaporation_l_per_day(25.0, &room)?;
//! assert!(a_day.low < a_day.high);
//! # Ok::<(), quantity::Fault>(())
//! ```

mod body;
mod cooling;
mod evaporation;
mod gear;
mod mixing;
mod steady;
mod top_up;

pub use body::{Body, Cover, End, Room};
pub use cooling::{Cooling, loss_from_cooling_w_per_k};
pub use evaporation::{latent_heat_kj_per_kg, vapour_pressure_kpa};
pub use gear::{Gear, heat_w};
pub use mixing::{Pour, WATER_KJ_PER_L_K, mixed_c};
pub use steady::MOST_C;
pub use top_up::TopUp;
