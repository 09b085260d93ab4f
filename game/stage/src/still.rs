//! Pictures without a window: an application that draws into an image, and what it drew.

use bevy::DefaultPlugins;
use bevy::app::{App, PluginGroup, PluginsState};
use bevy::asset::{Assets, Handle};
use bevy::camera::{ImageRenderTarget, RenderTarget};
use bevy::image::Image;
use bevy::log::LogPlugin;
use bevy::math::UVec2;
use bevy::render::pipelined_rendering::PipelinedRenderingPlugin;
use bevy::render::render_asset::RenderAssets;
use bevy::render::render_resource::{
    BufferDescriptor, BufferUsages, CommandEncoderDescriptor, Extent3d, MapMode, PipelineCache,
    PollType, TexelCopyBufferInfo, TexelCopyBufferLayout, Texture, TextureDescriptor,
    TextureDimension, TextureFormat, TextureUsages,
};
use bevy::render::renderer::{RenderDevice, RenderQueue};
use bevy::render::texture::GpuImage;
use bevy::render::{RenderApp, RenderPlugin};
use bevy::tasks::{block_on, tick_global_task_pools_on_main_thread};
use bevy::window::{ExitCondition, WindowPlugin};
use bevy::winit::WinitPlugin;

/// Rows come back at a multiple of so many bytes.
const ROW: usize = 256;
/// So often is tried at most until all shaders are there.
const TRIES_MOST: u32 = 2000;

/// There is no driver that draws.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoDriver;

/// A picture: rows from above, red, green, blue and cover of each pixel in sRGB.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// Width and height in pixels.
    pub size: UVec2,
    /// Four bytes a pixel.
    pub bytes: Vec<u8>,
}

impl Picture {
    /// Red, green and blue of a pixel. Black outside of the picture.
    pub fn pixel(&self, x: u32, y: u32) -> [u8; 3] {
        let at = (y as usize * self.size.x as usize + x as usize) * 4;
        match self.bytes.get(at..at + 3) {
            Some(&[red, green, blue]) if x < self.size.x => [red, green, blue],
            _ => [0; 3],
        }
    }

    /// The mark of a pixel in a flat picture.
    pub fn mark(&self, x: u32, y: u32) -> u32 {
        let [red, green, blue] = self
            .pixel(x, y)
            .map(|channel| (u32::from(channel) + 4) >> 3);
        (red << 10) | (green << 5) | blue
    }
}

/// An application that draws into an image.
pub struct Still {
    app: App,
    image: Handle<Image>,
    size: UVec2,
}

/// Whether there is a driver that draws: Vulkan, or what the system has in its place.
pub fn has_driver() -> bool {
    let backends = wgpu::Backends::PRIMARY;
    let instance = wgpu::Instance::new(wgpu::InstanceDescriptor {
        backends,
        ..wgpu::InstanceDescriptor::new_without_display_handle()
    });
    !block_on(instance.enumerate_adapters(backends)).is_empty()
}

impl Still {
    /// An application of this size in pixels. `build` adds what it draws, with a camera whose
    /// target is the one that it is given.
    ///
    /// # Errors
    /// If there is no driver.
    pub fn new(size: UVec2, build: impl FnOnce(&mut App, RenderTarget)) -> Result<Still, NoDriver> {
        Still::in_format(size, TextureFormat::Rgba8UnormSrgb, build)
    }

    /// The same with another order of colours.
    pub(crate) fn in_format(
        size: UVec2,
        format: TextureFormat,
        build: impl FnOnce(&mut App, RenderTarget),
    ) -> Result<Still, NoDriver> {
        if !has_driver() {
            return Err(NoDriver);
        }
        let mut app = App::new();
        let window = WindowPlugin {
            primary_window: None,
            exit_condition: ExitCondition::DontExit,
            ..WindowPlugin::default()
        };
        app.add_plugins(
            DefaultPlugins
                .set(window)
                .set(RenderPlugin {
                    synchronous_pipeline_compilation: true,
                    ..RenderPlugin::default()
                })
                .disable::<WinitPlugin>()
                .disable::<LogPlugin>()
                .disable::<PipelinedRenderingPlugin>(),
        );
        let image = app
            .world_mut()
            .get_resource_mut::<Assets<Image>>()
            .map(|mut images| images.add(target(size, format)))
            .unwrap_or_default();
        build(
            &mut app,
            RenderTarget::Image(ImageRenderTarget::from(image.clone())),
        );
        while app.plugins_state() == PluginsState::Adding {
            tick_global_task_pools_on_main_thread();
        }
        app.finish();
        app.cleanup();
        let mut still = Still { app, image, size };
        // What is spawned at the start is drawn from the second update on.
        still.app.update();
        Ok(still)
    }

    /// The application.
    pub fn app(&mut self) -> &mut App {
        &mut self.app
    }

    /// Draws, and gives the picture. `None` if nothing comes back, as when a driver is lost.
    /// Screens that need a pass to lay themselves out want an update of the application before.
    pub fn draw(&mut self) -> Option<Picture> {
        for _ in 0..TRIES_MOST {
            self.app.update();
            if self.is_ready() {
                break;
            }
        }
        let world = self.app.get_sub_app(RenderApp)?.world();
        let device = world.get_resource::<RenderDevice>()?;
        let queue = world.get_resource::<RenderQueue>()?;
        let image = world
            .get_resource::<RenderAssets<GpuImage>>()?
            .get(&self.image)?;
        let bytes = read(device, queue, &image.texture, self.size)?;
        Some(Picture {
            size: self.size,
            bytes,
        })
    }

    /// Whether nothing is left to be compiled. The engine reads some of its shaders late, and
    /// leaves out what needs them until then.
    fn is_ready(&self) -> bool {
        let world = self.app.get_sub_app(RenderApp).map(|render| render.world());
        let pipelines = world.and_then(|world| world.get_resource::<PipelineCache>());
        pipelines.is_none_or(|pipelines| pipelines.waiting_pipelines().next().is_none())
    }
}

/// The bytes of a texture of four bytes a pixel.
fn read(
    device: &RenderDevice,
    queue: &RenderQueue,
    texture: &Texture,
    size: UVec2,
) -> Option<Vec<u8>> {
    let row = size.x as usize * 4;
    let padded = row.next_multiple_of(ROW);
    let buffer = device.create_buffer(&BufferDescriptor {
        label: Some("picture"),
        size: (padded * size.y as usize) as u64,
        usage: BufferUsages::COPY_DST | BufferUsages::MAP_READ,
        mapped_at_creation: false,
    });
    let mut encoder = device.create_command_encoder(&CommandEncoderDescriptor::default());
    let layout = TexelCopyBufferLayout {
        offset: 0,
        bytes_per_row: Some(padded as u32),
        rows_per_image: None,
    };
    let into = TexelCopyBufferInfo {
        buffer: &buffer,
        layout,
    };
    encoder.copy_texture_to_buffer(texture.as_image_copy(), into, texture.size());
    queue.submit([encoder.finish()]);
    buffer.slice(..).map_async(MapMode::Read, |_| {});
    device.poll(PollType::wait_indefinitely()).ok()?;
    let mapped = buffer.slice(..).get_mapped_range();
    let rows = mapped.chunks(padded).take(size.y as usize);
    Some(
        rows.flat_map(|with_padding| with_padding.iter().take(row).copied())
            .collect(),
    )
}

fn target(size: UVec2, format: TextureFormat) -> Image {
    let extent = Extent3d {
        width: size.x,
        height: size.y,
        depth_or_array_layers: 1,
    };
    let mut image = Image {
        data: Some(vec![0; size.x as usize * size.y as usize * 4]),
        ..Image::default()
    };
    image.texture_descriptor = TextureDescriptor {
        label: Some("picture"),
        size: extent,
        dimension: TextureDimension::D2,
        format,
        mip_level_count: 1,
        sample_count: 1,
        usage: TextureUsages::TEXTURE_BINDING
            | TextureUsages::COPY_SRC
            | TextureUsages::COPY_DST
            | TextureUsages::RENDER_ATTACHMENT,
        view_formats: &[],
    };
    image
}
